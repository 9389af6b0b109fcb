// Package storage is the job book: one file that holds many jobs with their
// undo history, revisions, price lists, settings and after-the-pour records.
//
// The file is a bbolt database. A job is kept as its job file, so that whatever
// becomes of this program the text of every job can be read. Each change is one
// transaction, on disk (fsync) when the call returns. Every value carries a
// checksum over itself, its bucket and its key: damage is reported, never
// passed on, and Salvage recovers what is still whole by its checksums alone,
// whether or not the database around it can be read.
//
// A sketch is stored once in a job, however many states show it. A file
// that is mostly unused is rewritten when the book is opened. A book of an older
// form is brought to the present one, with a backup first.
//
// Errors that a person can do something about are a *Fault.
package storage
