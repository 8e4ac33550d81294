package export

import (
	"cmp"
	"io"

	"guidecoat/journal/aloud"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
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
	var takes any
	if s.Takes > 0 {
		takes = s.Takes
	}
	var clearedBy Object
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
		{"not_before", s.NotBefore}, // the odometer from which it can be done
		{"waits_for", s.WaitsFor}, {"minutes", takes}, {"disclose", s.Disclose},
		{"session", text(s.Session)}, // the one it was opened in
		{"file", s.Note}, {"line", s.Line},
		{"cleared_by", clearedBy}, // the line that settled it
	}))
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
	}))
}

func DonorsOf(v *view.View, folder string) []Object {
	f := figures{v.Currency, true, true}
	return pick.Map(v.Donors, func(d fact.Donor) Object {
		return inFolder(folder, f.object(Object{
			{"donor", d.Name}, {"category", text(d.Category)},
			{"price", d.Price},   // less what came back for it
			{"parts", d.Parts},   // taken by this build
			{"spread", d.Spread}, // over parts
			{"holds", d.Holds},   // what is still in it is worth
			{"left", d.Left},     // in the garage
		}))
	})
}

// QuotesOf are what is asked for parts, brought into the yard.
func QuotesOf(v *view.View, folder string) []Object {
	f := figures{v.Currency, true, true}
	return pick.Map(v.Quotes, func(q fact.Quote) Object {
		return inFolder(folder, f.object(Object{
			{"part", q.Part}, {"from", text(q.From)}, {"price", q.Price}, {"freight", q.Freight}, {"duty", q.Duty},
			{"import_tax", q.Tax}, {"clearance", q.Clearance},
			{"landed", q.Landed}, // all of them
			{"wait_days", q.Wait},
			{"holding", q.Holding}, // what keeping the vehicle costs meanwhile
			{"until", q.Until}, {"expired", q.Expired}, {"best", q.Best},
		}))
	})
}

// WritePartsCSV writes parts as CSV. Its error is the writer's.
func WritePartsCSV(w io.Writer, parts []Object) error {
	return writeCSV(w, []string{"id", "description", "state", "system", "stage", "condition", "origin", "paid", "due", "late", "supplier", "file", "line"}, parts)
}

// SeenOf is the build.json of a site, made from the view alone. What is not shown is null, or not in a list.
func SeenOf(v *view.View, page func(session string) string) Object {
	f, withheld := figures{v.Currency, true, v.Hours}, map[string]int{}
	for severity, n := range v.Withheld {
		withheld[severity.String()] = n
	}
	return f.object(Object{
		{"build", v.Name}, {"audience", string(v.Audience)}, {"currency", text(v.Currency.Code)}, {"as_of", v.AsOf},
		{"newest", v.Newest}, // the date of the newest session
		{"sold", v.SoldOn},   // the date of the sale
		{"odometer", text(v.Odometer)}, {"ready", readyOf(v.Ready)}, {"minutes", f.minutes(v.Minutes)},
		{"vehicle", pick.Map(v.Vehicle, func(d view.Detail) Object { return Object{{"name", d.Name}, {"value", d.Value}} })},
		{"sessions", eachOf(v.Sessions, func(s *view.SessionView) Object {
			return f.object(Object{
				{"session", s.Name},
				{"page", text(page(s.Name))}, // null where nothing of it is shown
				{"date", s.Date.String()}, {"title", s.Title}, {"stage", text(s.Stage)},
				{"minutes", f.minutes(s.Minutes)}, {"net", s.Spent},
			})
		})},
		{"costs", CostsOf(v)},
		{"snags", eachOf(v.Snags, func(s *view.SnagView) Object { return append(SnagOf(s, ""), shows(s.Evidence)) })},
		{"withheld", withheld}, // private but grave, by severity
		{"parts", eachOf(v.Parts, func(p *view.PartView) Object { return append(PartOf(v, p, ""), shows(p.Evidence)) })},
		{"checks", eachOf(v.Checks, func(c *view.CheckView) Object {
			return Object{{"check", c.Name}, {"date", c.Date.String()}, {"result", c.Result}, shows(c.Evidence)}
		})},
		{"readings", eachOf(v.Readings, func(r *view.ReadingView) Object {
			return Object{{"reading", r.Name}, {"date", r.Date.String()}, {"value", r.Value.String()}, shows(view.Measured)}
		})},
	})
}

// shows says what evidence there is; null where there is nothing to show.
func shows(e view.Evidence) field { return field{"evidence", figures{}.formatted(text(e))} }

// GarageOf is what `costs --json` prints of a garage.
func GarageOf(g *fact.Garage) Object {
	f := figures{g.Currency, true, true}
	t := g.Totals
	var builds, earnings []Object
	for _, b := range g.Builds {
		builds = append(builds, figures{b.Currency, true, true}.costs(b.Name, b.Path, g.AsOf, b.LinesLeftOut, b.Costs))
		if b.Earned != nil { // after its shares of the tools; an hour is null at no minutes
			earnings = append(earnings, f.object(Object{{"build", text(b.Name)}, {"path", b.Path}, {"tool_shares", b.Carried}, {"earned", b.Earned.Sum}, {"per_hour", b.Earned.PerHour}}))
		}
	}
	leftOut := pick.Map(g.Others(), func(b fact.Housed) string { return b.Path })
	return f.object(Object{
		{"garage", text(g.Name)}, {"currency", text(g.Currency.Code)}, {"as_of", g.AsOf},
		{"lines_left_out", g.LinesLeftOut}, // of garage.md; each build has its own
		{"builds", builds},
		{"tools", pick.Map(g.Tools, func(t fact.Tool) Object {
			shares := pick.Map(t.Shares, func(s fact.Share) Object {
				return f.object(Object{{"build", text(s.Name)}, {"path", s.Path}, {"amount", s.Amount}})
			})
			return f.object(Object{{"tool", t.Name}, {"price", t.Price}, {"shares", shares}, {"unassigned", t.Unassigned}}) // of builds not yet begun
		})},
		{"totals", f.object(Object{ // over the builds in the garage's currency
			{"spent", t.Spent}, {"credits", t.Credits}, {"net", t.Net}, {"minutes", t.Minutes}, {"tool_shares", t.Carried},
			{"sold", t.Sold}, {"earned", t.Earned}, {"sold_minutes", t.SoldMinutes}, {"per_hour", t.PerHour},
		})},
		{"left_out_of_totals", leftOut}, // folders of builds in another currency
		{"earnings", earnings},          // of the sold builds in the garage's currency
		{"track_record", pick.Map(g.TrackRecord(), func(r fact.Record) Object { // of sold builds with a budget for the stage
			return Object{{"stage", r.Stage}, {"builds", r.Builds}, {"ratio", r.Ratio.InexactFloat64()}} // mean of net by likely budget
		})},
	})
}
