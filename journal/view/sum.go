package view

import (
	"cmp"
	"slices"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"

	"github.com/shopspring/decimal"
)

// What a page adds up over a view, which holds nothing hidden.

// StageProgress is how far the work on a stage has come, counted in its snags and parts.
type StageProgress struct {
	Stage    string
	Done     int // snags cleared; parts on the vehicle, or no longer wanted
	All      int
	Sessions int
}

// Progress counts every stage of the build, in order.
func (v *View) Progress() []StageProgress {
	list := make([]StageProgress, len(v.Stages))
	at := map[string]*StageProgress{}
	for i, name := range v.Stages {
		list[i].Stage = name
		at[name] = &list[i]
	}
	count := func(stage string, done bool) {
		if p := at[stage]; p != nil {
			p.All++
			if done {
				p.Done++
			}
		}
	}
	for _, s := range v.Snags {
		if s.Outstanding() || !s.Open {
			count(s.Stage, !s.Open)
		}
	}
	for _, p := range v.Parts {
		count(p.Stage, p.Fitted() || fact.EndsRound(p.State))
	}
	for _, s := range v.Sessions {
		if p := at[s.Stage]; p != nil {
			p.Sessions++
		}
	}
	return list
}

// A RunningTotal is what had been spent, less credits, by the end of a day.
type RunningTotal struct {
	Date measure.Date
	Sum  decimal.Decimal
}

// Running adds up the lines that are shown, by day.
func (m *MoneyView) Running() []RunningTotal {
	lines := slices.Clone(m.Lines)
	slices.SortStableFunc(lines, func(a, b *MoneyLine) int { return cmp.Compare(a.Date, b.Date) })
	var list []RunningTotal
	sum := decimal.Zero
	for _, l := range lines {
		sum = sum.Add(l.Signed())
		if n := len(list); n > 0 && list[n-1].Date == l.Date {
			list[n-1].Sum = sum
		} else {
			list = append(list, RunningTotal{l.Date, sum})
		}
	}
	return list
}

// NotListed is what counts in the sums although its lines are not shown.
func (m *MoneyView) NotListed() decimal.Decimal {
	rest := m.Costs.Net
	for _, l := range m.Lines {
		rest = rest.Sub(l.Signed())
	}
	return rest
}

// Budget adds up the stages' budgets; ok is false where no stage has one.
func (m *MoneyView) Budget() (sum fact.Three, ok bool) {
	for _, s := range m.Costs.Stages {
		if b := s.Budget; b != nil {
			ok = true
			for i := range sum {
				sum[i] = sum[i].Add(b[i])
			}
		}
	}
	return sum, ok
}

// Signed is the line's sum as it counts: a credit is negative.
func (l *MoneyLine) Signed() decimal.Decimal {
	if l.Credit {
		return l.Amount.Neg()
	}
	return l.Amount
}

// A ReadingSeries is every reading of one name, oldest first.
type ReadingSeries struct {
	Name     string
	Readings []JudgedReading
}

// A JudgedReading is a reading with the limits that held for it, and how it is outside or near them.
type JudgedReading struct {
	*ReadingView
	Limits        note.Limits
	Outside, Near speech.Phrase
}

// Newest is the last of them.
func (s *ReadingSeries) Newest() JudgedReading { return s.Readings[len(s.Readings)-1] }

// Series groups the readings by name, in the order in which names first come.
func (v *View) Series() []*ReadingSeries {
	return pick.Map(pick.Groups(v.Readings, func(r *ReadingView) string { return r.Name }), func(of []*ReadingView) *ReadingSeries {
		s := &ReadingSeries{Name: of[0].Name}
		var limits note.Limits
		for _, r := range of {
			limits = r.Limits.After(limits)
			s.Readings = append(s.Readings, JudgedReading{r, limits, limits.Outside(r.Value), limits.Near(r.Value)})
		}
		return s
	})
}

// ScansByUnit groups the scans by control unit, in the order of the units' first.
func (v *View) ScansByUnit() [][]*ScanView {
	return pick.Groups(v.Scans, func(s *ScanView) string { return s.Unit })
}

// CompareScans counts the codes that a later scan no longer lists, still lists, and lists anew.
func CompareScans(before, after *ScanView) (gone, there, fresh int) {
	listed := map[string]bool{}
	for _, c := range before.Codes {
		listed[c.Code] = true
	}
	seen := map[string]bool{}
	for _, c := range after.Codes {
		switch {
		case seen[c.Code]:
		case listed[c.Code]:
			there++
		default:
			fresh++
		}
		seen[c.Code] = true
	}
	return len(listed) - there, there, fresh
}

// DistinctDays counts the days on which sessions were held.
func DistinctDays(sessions []*SessionView) int {
	return len(pick.By(sessions, func(s *SessionView) measure.Date { return s.Date }))
}

// A WeekOfWork is a week of ISO 8601 in which somebody worked.
type WeekOfWork struct {
	Monday  measure.Date
	Minutes measure.Minutes // of person time
}

// Weeks adds up the time of the sessions that are shown, week by week.
func (v *View) Weeks() []WeekOfWork {
	var list []WeekOfWork
	for _, s := range v.Sessions { // they are in order of their dates
		if s.Minutes == 0 {
			continue
		}
		sinceMonday := (int(s.Date.Time().Weekday()) + 6) % 7
		monday := s.Date.AddDays(-sinceMonday)
		if n := len(list); n == 0 || list[n-1].Monday != monday {
			list = append(list, WeekOfWork{Monday: monday})
		}
		list[len(list)-1].Minutes += s.Minutes
	}
	return list
}

// NotInWeeks is time that counts although no session that is shown holds it.
func (v *View) NotInWeeks() measure.Minutes {
	rest := v.Minutes
	for _, s := range v.Sessions {
		rest -= s.Minutes
	}
	return rest
}

type OpenCount struct {
	Date measure.Date
	Open int
}

// OpenSnags counts on every day with a session, an opening or a clearing.
func (v *View) OpenSnags() []OpenCount {
	change := map[measure.Date]int{}
	for _, s := range v.Sessions {
		change[s.Date] += 0
	}
	for _, s := range v.Snags {
		for _, spell := range s.Spells() {
			change[spell.From]++
			if spell.To != 0 {
				change[spell.To]--
			}
		}
	}
	list := make([]OpenCount, 0, len(change))
	for d, n := range change {
		list = append(list, OpenCount{d, n})
	}
	slices.SortFunc(list, func(a, b OpenCount) int { return int(a.Date) - int(b.Date) })
	for i := 1; i < len(list); i++ {
		list[i].Open += list[i-1].Open
	}
	return list
}

// A Spell is from when to when something was so; To is 0 while it still is.
type Spell struct{ From, To measure.Date }

// Spells are those for which the snag was open, by its own dates: private events are not among its events.
func (s *SnagView) Spells() []Spell {
	var list []Spell
	turn := func(open bool, on measure.Date) {
		if n := len(list); open && (n == 0 || list[n-1].To != 0) {
			list = append(list, Spell{From: on})
		} else if !open && n > 0 && list[n-1].To == 0 {
			list[n-1].To = on
		}
	}
	for _, e := range s.Events {
		switch e.What {
		case fact.Opened, fact.Reopened:
			turn(true, e.Date)
		case fact.Cleared:
			turn(false, e.Date)
		}
	}
	if s.Open {
		turn(true, s.Opened)
	} else {
		turn(false, s.Cleared)
	}
	return list
}

// mostSteps bounds the ways followed: where each of a thousand parts holds up the same thousand snags, no end comes.
const mostSteps = 100_000

// A Waiting follows what waits for what, as it stood.
type Waiting struct {
	snags map[string][]*SnagView // the open ones, by what they wait for
	steps int                    // left
}

func (v *View) Waiting() *Waiting {
	w := &Waiting{map[string][]*SnagView{}, mostSteps}
	for _, s := range v.Snags {
		for _, id := range s.WaitsFor {
			if s.Open {
				w.snags[id] = append(w.snags[id], s)
			}
		}
	}
	return w
}

// For returns the open snags that wait for something, directly or through others, worst first.
func (w *Waiting) For(id string) []*SnagView {
	seen := map[*SnagView]bool{}
	var list []*SnagView
	ids := []string{id}
	for i := 0; i < len(ids) && (i == 0 || w.steps > 0); i++ {
		for _, s := range w.snags[ids[i]] {
			if w.steps--; s.ID != id && !seen[s] {
				seen[s], list = true, append(list, s)
				if s.ID != "" {
					ids = append(ids, s.ID)
				}
			}
		}
	}
	slices.SortStableFunc(list, CompareSnags)
	return list
}

// A Holdup is a part that is still to come, and the snags that wait for it.
type Holdup struct {
	Part  *PartView
	Snags []*SnagView
}

// Holdups are the parts that hold up snags: most first, then by the worst of them, then by id.
func (v *View) Holdups() []Holdup {
	var list []Holdup
	waiting := v.Waiting()
	for _, p := range v.Parts {
		if p.InHand() {
			continue
		}
		if snags := waiting.For(p.ID); snags != nil {
			list = append(list, Holdup{p, snags})
		}
	}
	slices.SortStableFunc(list, func(a, b Holdup) int {
		return cmp.Or(-cmp.Compare(len(a.Snags), len(b.Snags)), -cmp.Compare(a.Snags[0].Severity, b.Snags[0].Severity), cmp.Compare(a.Part.ID, b.Part.ID))
	})
	return list
}
