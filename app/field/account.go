package field

import "github.com/shopspring/decimal"

var accountRows = rows("account",
	part("", "Account", "What was agreed, billed and paid; amounts with sales tax, to the cent.").rule(numbersDiffer),
	percent("retainage", "Retainage", "Kept back of progress and final invoices until it is asked for. How much may be kept back, and how long, is the law of the state and the contract.").from(0, 100).trade(5, 10, practice).zero("none"),
)

var contractRows = rows("account.contract",
	part("", "Contract", "The bid that was accepted.").rule(cents("amount", "tax")),
	row(Date, "date", "Agreed on", "The day it was signed.").blank("not agreed"),
	money("amount", "Contract", "The bid as it was accepted, with sales tax.").from(0, 1e12).zero("none"),
	money("tax", "Sales tax in it", "As the bid had it.").from(0, 1e12).zero("none"),
)

var changeRows = rows("account.changes[]",
	list("", "change order", "What it adds to the contract counts once it is accepted.").items(0, 200).named("number").rule(cents("amount")),
	count("number", "Change", "Its number in the job.").from(1, 1e6),
	row(Date, "date", "Date", "When it was offered.").blank(notWritten),
	text("title", "What changes", "In a few words.").letters(120),
	money("amount", "Amount", "What it adds to the contract, with sales tax; less than 0 for what is taken off.").from(-1e12, 1e12).zero("none"),
	count("days", "Days", "By which the work is done later.").from(-1000, 1000).zero("none"),
	choice("state", "State", "Only what is accepted counts.", "open", "accepted", "declined"),
	row(Date, "decided", "Decided on", "When it was accepted or declined.").blank(notWritten),
	count("from", "From revision", "The number in the book of the state before.").from(0, 1e6).zero("none").unshown("set from the revisions that are compared"),
	count("to", "To revision", "The number in the book of the state after.").from(0, 1e6).zero("none").unshown("set from the revisions that are compared"),
)

var invoiceRows = rows("account.invoices[]",
	list("", "invoice", "Asks for a part of the contract. Its number runs through all jobs of a book.").items(0, 500).named("number").rule(cents("amount", "held")),
	count("number", "No.", "Given by the book, one after the other.").from(1, 1e9),
	row(Date, "date", "Date", "Of the invoice.").blank(notWritten),
	choice("kind", "Kind", "Retainage asks for what was kept back before.", "deposit", "progress", "final", "retainage"),
	text("for", "For", "What is asked for, in a few words.").letters(120),
	money("amount", "Amount", "Of the contract that it bills, before retainage.").from(-1e12, 1e12).zero("none"),
	money("held", "Kept back", "Retainage of this invoice; less than 0 where it asks for what was kept back.").from(-1e12, 1e12).zero("none"),
	row(Date, "due", "Due", "By when it is to be paid.").blank(notWritten),
)

var paymentRows = rows("account.payments[]",
	list("", "payment", "Money that came.").items(0, 1000).named("invoice").rule(cents("amount")),
	row(Date, "date", "Paid on", "When it came.").blank(notWritten),
	count("invoice", "Invoice", "By its number.").from(1, 1e9),
	money("amount", "Amount", "Less than 0 for what was paid back.").from(-1e12, 1e12).zero("none"),
	text("how", "How", "Check number, transfer.").letters(60),
)

var paperRows = rows("account.papers[]",
	list("", "paper", "A text of your own, such as a waiver or a notice, printed with the job's name and a line to sign. The program has none: state law says which forms hold; ask a lawyer.").items(0, 20).named("name"),
	text("name", "Title", "What stands over it.").letters(80),
	text("text", "Text", "Printed as it stands.").long(20_000),
)

// cents refuses amounts finer than a cent.
func cents(names ...string) func(View) {
	return func(w View) {
		for _, n := range names {
			if d := w.value(n).(decimal.Decimal); !d.Equal(d.Round(2)) {
				w.fault(n, d.String(), "write whole cents")
			}
		}
	}
}

// numbersDiffer asks that each invoice and each change has a number of its own.
func numbersDiffer(w View) {
	differ("invoices", "number")(w)
	differ("changes", "number")(w)
}
