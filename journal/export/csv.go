package export

import (
	"cmp"
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/money"
	"guidecoat/journal/view"
)

// A column of a CSV file: its header, and how its cells are made of an entry.
type column[T any] struct {
	head string
	cell func(T) string
}

// writeCSV writes a header and a row for each entry, by RFC 4180: fields in quotes
// where needed, lines ended by CRLF.
func writeCSV[T any](w io.Writer, columns []column[T], entries []T) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	row := make([]string, len(columns))
	for i, c := range columns {
		row[i] = c.head
	}
	out.Write(row) // keeps the first error for Error
	for _, e := range entries {
		for i, c := range columns {
			row[i] = c.cell(e)
		}
		out.Write(row)
	}
	out.Flush()
	return out.Error()
}

// safe makes text of a cell that a spreadsheet would run as a formula: one that
// begins with any of these characters gets an apostrophe before it.
func safe(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}

// A line is one cost or credit, with the currency it is in.
type line struct {
	*view.MoneyLine
	currency money.Currency
}

// lineColumns are the columns of the costs' CSV.
var lineColumns = []column[line]{
	{"date", func(l line) string { return l.Date.String() }},
	{"session", func(l line) string { return safe(l.Note) }},
	{"line", func(l line) string { return strconv.Itoa(l.Line) }},
	{"stage", func(l line) string { return safe(cmp.Or(l.Stage, fact.Unstaged)) }},
	{"category", func(l line) string { return l.Category }},
	{"kind", line.kind},
	{"description", func(l line) string { return safe(l.Description) }},
	{"part", func(l line) string { return l.Part }},
	{"supplier", func(l line) string { return safe(l.Supplier) }},
	{"amount", func(l line) string { return money.Format(l.Amount, l.currency) }},
	{"currency", func(l line) string { return l.currency.Code }},
	{"to_garage", func(l line) string { return money.Format(l.Garage, l.currency) }},
}

func (l line) kind() string {
	if l.Credit {
		return "credit"
	}
	return "cost"
}

// WriteCSV writes the lines of money in views as CSV, in the order of the notes. Its
// error is the writer's.
func WriteCSV(w io.Writer, views ...*view.View) error {
	var lines []line
	for _, v := range views {
		if v.Money == nil {
			continue
		}
		for _, l := range v.Money.Lines {
			lines = append(lines, line{l, v.Currency})
		}
	}
	return writeCSV(w, lineColumns, lines)
}
