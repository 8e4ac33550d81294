package view

import (
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/state"

	"github.com/shopspring/decimal"
)

// Of returns what the audience may see of the build as it stood.
func Of(st *state.State, to Audience) *View { return newViewer(st, to).view() }

func newViewer(st *state.State, to Audience) *viewer {
	v := &viewer{st: st, Copy: CopyFor(to), names: map[*journal.Session]string{}, hidden: map[string]bool{}, untold: map[string]bool{}, parts: map[string]*PartView{}, snags: map[*state.Snag]*SnagView{}, files: map[string]bool{}}
	v.rights = v.with(st.Build.Card.Public)
	return v
}

// A viewer makes one View. Its fields are the row of the audience table that holds.
type viewer struct {
	st *state.State
	Copy

	// hiddenRefund are the refunds of costs that are not shown.
	hiddenRefund map[*journal.Money]bool

	// untold are the ids of parts that have money which the audience may not know of.
	untold map[string]bool
	names  map[*journal.Session]string // of the sessions that have a page
	hidden map[string]bool             // the ids of parts and snags that are not shown
	parts  map[string]*PartView
	snags  map[*state.Snag]*SnagView
	files  map[string]bool
	bodies []noteBody
	shown  *Shown          // nil where nobody asks
	only   map[string]bool // the notes that are asked for; nil for all
}

func (v *viewer) view() *View {
	if !v.notes {
		return &View{Copy: v.Copy}
	}
	v.hide()
	v.hideRefunds()
	if v.only != nil {
		v.narrow()
	}
	st, b := v.st, v.st.Build
	out := &View{Copy: v.Copy, Name: b.Card.Name, Currency: b.Card.Currency, AsOf: st.AsOf, Today: st.Today,
		Stages: b.StageNames(), BuildPath: b.Path, Hours: v.hours, Withheld: map[note.Severity]int{},
		LinesLeftOut: b.LinesLeftOut, equipment: b.Card.Equipment(), parts: v.parts, snags: map[string]*SnagView{},
		About: v.body(b.Card.Note, b.Path, false), Vehicle: v.vehicle()}
	for _, s := range st.Sessions {
		if s.Private && !v.private {
			continue
		}
		v.names[s] = s.Name(b)
		out.Newest = s.Date
		if s.Odometer != nil {
			out.Odometer = s.Odometer.String()
		}
	}
	out.Language, out.Typed = journal.Languages[0], b.Card.Public.Typed
	if v.spoken {
		out.Language = b.Card.Public.Language
	}
	if v.saleSeen() {
		out.SoldOn = st.Sale.Date
	}
	if v.shown == nil {
		out.Ready = v.ready()
	}
	if v.business && b.Card.Sound() {
		if bid, known := state.BestBid(b.Card); known {
			out.Bid = &bid
		}
		out.Choices = st.Choices()
	}
	out.Money = v.money()
	v.viewParts(out)
	v.viewDonors(out)
	v.viewSnags(out)
	v.viewMeasured(out)
	viewCondition(v, out)
	out.grade()
	if v.business {
		out.Calendar, out.Quotes, out.Selling = st.Calendar(out.Ready), st.Quotes(), v.selling(out.Money.Costs)
	}
	v.viewSessions(out)
	for _, p := range b.Pages {
		if v.private || !p.Private {
			out.Pages = append(out.Pages, &PageView{Path: p.Path, Title: p.Title, Body: v.body(p.Note, dirOf(p.Path), false)})
		}
	}
	if v.shown != nil {
		return out
	}
	v.useRefs()
	for f := range v.files {
		out.Files = append(out.Files, f)
	}
	slices.Sort(out.Files)
	return out
}

// vehicle returns the details, numbers that identify it as far as they may be shown.
func (v *viewer) vehicle() []Detail {
	var list []Detail
	for _, d := range v.st.Build.Card.Vehicle {
		switch kind := d.Kind(); {
		case kind == journal.VIN && v.vin != "masked" && v.vin != "full", kind == journal.Registration && !v.plate, kind == journal.Contact && !v.contact:
			continue
		case kind == journal.VIN && v.vin == "masked":
			d.Value = maskVIN(d.Value)
		default:
			v.shows(d.Line, d.Line.Words())
		}
		list = append(list, Detail{d.Name, d.Value, d.Kind() == journal.Contact})
	}
	return list
}

// maskVIN leaves the first three characters, which name the maker and no vehicle.
func maskVIN(vin string) string {
	runes := []rune(vin)
	first := min(3, len(runes))
	return string(runes[:first]) + strings.Repeat("•", len(runes)-first)
}

func (v *viewer) viewSessions(out *View) {
	byName := map[string]*SessionView{}
	for _, s := range v.st.Sessions {
		if _, ok := v.names[s]; !ok {
			continue
		}
		w := v.session(s)
		byName[w.Name] = w
		out.Sessions = append(out.Sessions, w)
	}
	for _, m := range v.st.Money {
		w := byName[v.names[m.Session]]
		if w == nil || !v.lines || !v.moneySeen(m) {
			continue
		}
		if w.Spent == nil {
			w.Spent = new(decimal.Decimal)
		}
		sum := m.Sum.Build
		if m.Credit {
			sum = sum.Neg()
		}
		*w.Spent = w.Spent.Add(sum)
		if l := v.line(m); l != nil {
			w.Money = append(w.Money, l)
		}
	}
	for _, x := range v.st.Work {
		if !v.hours {
			break
		}
		if v.ofPurchase(x.Stage) {
			continue
		}
		out.Minutes += x.Minutes
		if w := byName[v.names[x.Session]]; w != nil {
			w.Minutes += x.Minutes
			if v.private || !x.Private {
				v.shows(x.Line, x.Line.Words())
				w.Work = append(w.Work, WorkView{x.Minutes, x.Line.Words().S, x.Stage, x.Private})
			}
		}
	}
	for _, p := range out.Parts {
		for _, e := range p.Events {
			if w := byName[e.Session]; w != nil {
				w.Parts = append(w.Parts, e)
				w.Safety = w.Safety || note.IsSafety(p.System)
			}
		}
	}
	inSession(byName, out.Checks, func(c *CheckView) string { return c.Session }, func(w *SessionView) *[]*CheckView { return &w.Checks })
	for _, f := range slices.Concat(out.Fasteners, out.Unlisted) {
		inSession(byName, f.Tightened, func(t TighteningView) string { return t.Session }, func(w *SessionView) *[]TighteningView { return &w.Fasteners })
	}
	inSession(byName, out.Readings, func(r *ReadingView) string { return r.Session }, func(w *SessionView) *[]*ReadingView { return &w.Readings })
	inSession(byName, out.Scans, func(s *ScanView) string { return s.Session }, func(w *SessionView) *[]*ScanView { return &w.Scans })
	v.viewItems(byName)
}

func inSession[T any](byName map[string]*SessionView, list []T, of func(T) string, to func(*SessionView) *[]T) {
	for _, x := range list {
		if w := byName[of(x)]; w != nil {
			*to(w) = append(*to(w), x)
		}
	}
}

func (v *viewer) session(s *journal.Session) *SessionView {
	system := v.st.Build.SystemOf(s.Stage)
	w := &SessionView{Path: s.Path, Name: v.names[s], Date: s.Date, Title: s.Title, Stage: s.Stage, System: system, Private: s.Private,
		Body: v.body(s.Note, dirOf(s.Path), true), Safety: note.IsSafety(system)}
	if s.Odometer != nil {
		w.Odometer = s.Odometer.String()
	}
	if v.private { // lines in error have no snag to speak for them
		for _, it := range s.Note.Items {
			if v.st.Build.LeftOut(it.Line) {
				w.Body.Items[it.At] = &ItemView{Ticked: it.Ticked, Words: it.Text.S}
			}
		}
	}
	return w
}

// viewItems tells each body what its items have become, and each session what it opened and cleared.
func (v *viewer) viewItems(byName map[string]*SessionView) {
	for _, s := range v.st.Snags {
		w := v.snags[s]
		if w == nil {
			continue
		}
		for _, e := range s.Events {
			page := byName[v.names[e.Session]]
			if page == nil || e.Private && !v.private {
				continue
			}
			page.Safety = page.Safety || note.IsSafety(s.System)
			if e.Item != nil {
				page.Body.Items[e.Item.At] = &ItemView{What: e.What, Ticked: e.Item.Ticked, Words: e.Words, Snag: w}
			}
			switch e.What {
			case fact.Opened, fact.Reopened:
				page.Opened = append(page.Opened, w)
			case fact.Cleared:
				page.Cleared = append(page.Cleared, w)
			}
		}
	}
}
