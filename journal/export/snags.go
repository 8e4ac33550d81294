package export

import (
	"cmp"
	"io"

	"guidecoat/journal/aloud"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/view"
)

// SnagOf is a snag. Folder is that of its build in a garage, else "".
func SnagOf(s *view.SnagView, folder string) Object {
	state, cleared := "open", s.Cleared
	if !s.Open {
		state = "cleared"
	}
	if s.Undated {
		cleared = 0
	}
	var notBefore, takes, clearedBy any
	if s.NotBefore != nil {
		notBefore = s.NotBefore.String()
	}
	if s.Takes > 0 {
		takes = s.Takes
	}
	if s.ClearedAt != "" {
		clearedBy = Object{{"file", s.ClearedAt}, {"line", s.ClearedRow}}
	}
	return inFolder(folder, figures{}.object(Object{
		{"id", text(s.ID)},
		{"kind", text(s.Kind)}, // null but for notes
		{"severity", s.Severity.String()},
		{"text", note.PlainWords(cmp.Or(s.Typed, s.Text))}, // without markup
		{"stage", text(s.Stage)}, {"system", text(s.System)}, {"source", string(s.Source)}, {"state", state},
		{"opened", s.Opened.String()},
		{"cleared", cleared},       // null while it is open, and where nobody wrote the day
		{"due", text(s.DueText())}, // a date, or an odometer such as "148330 km"
		{"overdue", s.Overdue}, {"doable", s.Doable},
		{"not_before", notBefore}, // the odometer from which it can be done
		{"waits_for", s.WaitsFor}, {"minutes", takes}, {"disclose", s.Disclose},
		{"session", text(s.Session)}, // the one it was opened in
		{"file", s.Note}, {"line", s.Line},
		{"cleared_by", clearedBy}, // the line that settled it
	}...))
}

type Aloud struct {
	Lines []AloudLine `json:"lines"`
	problem.Report
}

type AloudLine struct {
	File    string        `json:"file"`
	Line    int           `json:"line"`
	Key     string        `json:"key"`
	Name    string        `json:"name,omitempty"`
	Words   string        `json:"words"`
	LeftOut bool          `json:"left_out,omitempty"`
	Reading aloud.Reading `json:"reading"`
}

// NewAloud returns the lines with the problems of the same notes.
func NewAloud(lines []*aloud.Line, problems []problem.Problem) Aloud {
	out := Aloud{Lines: make([]AloudLine, 0, len(lines)), Report: problem.NewReport(problems)}
	for _, l := range lines {
		out.Lines = append(out.Lines, AloudLine{l.File(), l.Number(), l.Key, l.Name, l.Words, l.LeftOut, l.Reading})
	}
	return out
}

// PartOf is a part as it stood. File and line are where its state was written.
func PartOf(v *view.View, p *view.PartView, folder string) Object {
	f := figures{v.Currency, true, true}
	return inFolder(folder, f.object(Object{
		{"id", p.ID}, {"description", p.Description}, {"state", p.State}, {"system", text(p.System)},
		{"stage", text(p.Stage)}, {"condition", text(p.Condition)}, {"origin", text(p.Origin)},
		{"number", text(p.Number)},
		{"estimate", p.Estimate}, // best, likely, worst
		{"paid", p.Paid}, {"supplier", text(p.Supplier)}, {"donor", text(p.Donor)},
		{"worth", p.Worth}, // by which it bears a share of its donor's price
		{"due", p.Due}, {"late", p.Late}, {"file", p.Note}, {"line", p.Line},
	}...))
}

func DonorsOf(v *view.View, folder string) []Object {
	f := figures{v.Currency, true, true}
	return objectsOf(v.Donors, func(d fact.Donor) Object {
		return inFolder(folder, f.object(Object{
			{"donor", d.Name}, {"category", text(d.Category)},
			{"price", d.Price},   // less what came back for it
			{"parts", d.Parts},   // taken by this build
			{"spread", d.Spread}, // over parts
			{"holds", d.Holds},   // what is still in it is worth
			{"left", d.Left},     // in the garage
		}...))
	})
}

// QuotesOf are what is asked for parts, brought into the yard.
func QuotesOf(v *view.View, folder string) []Object {
	f := figures{v.Currency, true, true}
	return objectsOf(v.Quotes, func(q fact.Quote) Object {
		return inFolder(folder, f.object(Object{
			{"part", q.Part}, {"from", text(q.From)}, {"price", q.Price}, {"freight", q.Freight}, {"duty", q.Duty},
			{"import_tax", q.Tax}, {"clearance", q.Clearance},
			{"landed", q.Landed}, // all of them
			{"wait_days", q.Wait},
			{"holding", q.Holding}, // what keeping the vehicle costs meanwhile
			{"until", q.Until}, {"expired", q.Expired}, {"best", q.Best},
		}...))
	})
}

// WritePartsCSV writes parts as CSV. Its error is the writer's.
func WritePartsCSV(w io.Writer, parts []Object) error {
	return writeCSV(w, []string{"id", "description", "state", "system", "stage", "condition", "origin", "paid", "due", "late", "supplier", "file", "line"}, parts)
}
