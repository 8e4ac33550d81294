package export

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/state"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
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

// A Line is one cost or credit for the CSV of costs.
type Line struct {
	Date        measure.Date
	Note        string // the note's path
	Line        int    // in the note
	Stage       string // "" where it belongs to none
	Category    string
	Credit      bool
	Description string
	Part        string
	Supplier    string
	Amount      decimal.Decimal // the build's part
	Garage      decimal.Decimal
	Currency    money.Currency
}

// LinesOf returns the lines that count in a state, in the order of the notes.
func LinesOf(st *state.State) []Line {
	var lines []Line
	for _, m := range st.Money {
		lines = append(lines, Line{
			Date: m.Date, Note: m.Session.Path, Line: m.Line.HeadSpan().Begin().Line, Stage: m.Stage, Category: m.Category,
			Credit: m.Credit, Description: m.Description(), Part: m.Part, Supplier: m.Supplier(),
			Amount: m.Sum.Build, Garage: m.Garage, Currency: st.Build.Card.Currency,
		})
	}
	return lines
}

// LinesSeen returns the lines that an audience sees, in the order of the notes.
func LinesSeen(lines []*view.MoneyLine, c money.Currency) []Line {
	var out []Line
	for _, m := range lines {
		out = append(out, Line{
			Date: m.Date, Note: m.Note, Line: m.Line, Stage: m.Stage, Category: m.Category,
			Credit: m.Credit, Description: m.Description, Part: m.Part, Supplier: m.Supplier,
			Amount: m.Amount, Garage: m.Garage, Currency: c,
		})
	}
	return out
}

// lineColumns are the columns of the costs' CSV.
var lineColumns = []column[Line]{
	{"date", func(l Line) string { return l.Date.String() }},
	{"session", func(l Line) string { return safe(l.Note) }},
	{"line", func(l Line) string { return strconv.Itoa(l.Line) }},
	{"stage", func(l Line) string { return safe(l.stage()) }},
	{"category", func(l Line) string { return l.Category }},
	{"kind", Line.kind},
	{"description", func(l Line) string { return safe(l.Description) }},
	{"part", func(l Line) string { return l.Part }},
	{"supplier", func(l Line) string { return safe(l.Supplier) }},
	{"amount", func(l Line) string { return money.Format(l.Amount, l.Currency) }},
	{"currency", func(l Line) string { return l.Currency.Code }},
	{"to_garage", func(l Line) string { return money.Format(l.Garage, l.Currency) }},
}

func (l Line) stage() string {
	if l.Stage == "" {
		return journal.Unstaged
	}
	return l.Stage
}

func (l Line) kind() string {
	if l.Credit {
		return "credit"
	}
	return "cost"
}

// WriteCSV writes lines of money as CSV. Its error is the writer's.
func WriteCSV(w io.Writer, lines []Line) error { return writeCSV(w, lineColumns, lines) }
