package workbook

import (
	"bytes"
	"slices"
	"testing"

	"github.com/xuri/excelize/v2"
)

func TestReadTable(t *testing.T) {
	want := []string{"Concrete, 3000 psi", "yd³", "171.25"}
	x := excelize.NewFile()
	defer x.Close()
	for i, row := range [][]any{{"Item", "Unit", "Price"}, {want[0], want[1], 171.25}} {
		if err := x.SetSheetRow("Sheet1", []string{"A1", "A2"}[i], &row); err != nil {
			t.Fatal(err)
		}
	}
	var book bytes.Buffer
	if err := x.Write(&book); err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{
		"list.csv":  []byte("\ufeffItem,Unit,Price\n\"Concrete, 3000 psi\",yd³,171.25\n"),
		"semi.CSV":  []byte("Item;Unit;Price\nConcrete, 3000 psi;yd³;171.25\n"),
		"tabs.txt":  []byte("Item\tUnit\tPrice\nConcrete, 3000 psi\tyd³\t171.25\n"),
		"book.xlsx": book.Bytes(),
	} {
		rows, err := ReadTable(name, data)
		if err != nil || len(rows) != 2 || !slices.Equal(rows[1], want) {
			t.Errorf("%s: %q, %v", name, rows, err)
		}
	}
	for name, data := range map[string][]byte{"list.pdf": nil, "no.xlsx": []byte("no book"), "big.csv": bytes.Repeat([]byte("a,b\n"), mostRows+1)} {
		if _, err := ReadTable(name, data); err == nil {
			t.Errorf("%s is read", name)
		}
	}
}
