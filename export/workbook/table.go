package workbook

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/xuri/excelize/v2"
)

// The most that is read of a table which others made.
const (
	mostTable = 16 << 20 // bytes unpacked
	mostRows  = 20000
)

// ReadTable reads the rows of a table: a CSV file with commas, semicolons or tabs, or
// the first sheet of an XLSX workbook that has any. The name says which it is.
func ReadTable(name string, data []byte) ([][]string, error) {
	var rows [][]string
	var err error
	switch strings.ToLower(filepath.Ext(name)) {
	case ".csv", ".txt":
		rows, err = readCSV(data)
	case ".xlsx":
		rows, err = readXLSX(data)
	default:
		return nil, fmt.Errorf("%s: found no table; give a file that ends in .csv or .xlsx", name)
	}
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: %w", name, err)
	case len(rows) > mostRows:
		return nil, fmt.Errorf("%s: found %d rows; give a list of at most %d", name, len(rows), mostRows)
	}
	return rows, nil
}

func readCSV(data []byte) ([][]string, error) {
	if len(data) > mostTable {
		return nil, fmt.Errorf("found %d MB; the most is %d MB", len(data)>>20, mostTable>>20)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord, r.LazyQuotes = -1, true
	for _, comma := range []rune{';', '\t'} {
		if bytes.Count(data, []byte(string(comma))) > bytes.Count(data, []byte(",")) {
			r.Comma = comma
		}
	}
	return r.ReadAll()
}

func readXLSX(data []byte) ([][]string, error) {
	x, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: mostTable, UnzipXMLSizeLimit: mostTable, RawCellValue: true})
	if err != nil {
		return nil, err
	}
	defer x.Close()
	for _, s := range x.GetSheetList() {
		rows, err := x.GetRows(s, excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, err
		}
		if len(rows) > 1 {
			return rows, nil
		}
	}
	return nil, fmt.Errorf("found no rows in it")
}
