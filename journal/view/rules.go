package view

import (
	"cmp"
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
	"guidecoat/journal/state"
)

// A Copy settles a site as a whole. The zero one has no folder, so that no command writes it.
type Copy struct {
	Audience Audience
	Banner   string // what every page says of whom it is for; "" where that goes without saying
	Folder   string // where it goes beside the notes, unless the user says otherwise
	Indexed  bool   // search engines may come
	AsTyped  bool   // notes are shown as typed besides, with every remark on them
	rights
}

// TellsPrivate says that what is private is meant to be in it, so that no warning is needed.
func (c Copy) TellsPrivate() bool { return c.private }

// TellsNames says the same of plates, identification numbers and suppliers.
func (c Copy) TellsNames() bool { return c.plate && c.vin == "full" && c.suppliers }

// A rights is what an audience may see. The zero value shows nothing.
type rights struct {
	notes     bool // sessions, pages, parts, checks, readings: all that no other field keeps back
	private   bool // what is private is shown
	work      bool // sums of the work are shown
	whole     bool // and so is everything else about money
	lines     bool // and so is each line
	purchase  bool // what belongs to a stage of buying is shown
	sale      bool // how the sale stands: asked, agreed, paid and owed
	business  bool // what is between the trader and himself: floor, claims, quotes, papers, donors' prices, hours and risk
	hours     bool
	snagsSeen bool
	withheld  bool // grave snags that are private are told of by their severity
	suppliers bool
	receipts  bool
	by        bool
	contact   bool
	vin       string // masked, full; else it is not shown
	plate     bool
	spoken    bool // the pages are in the language that the card sets
	asSet     bool // the card's settings of `public` decide on money, time, snags, suppliers, VIN and plate
}

// table has a row for each audience. All that depends on whom a site is for is here.
var table = []Copy{
	{Audience: ForPublic, Folder: "site", Indexed: true, rights: rights{notes: true, spoken: true, asSet: true}},
	{Audience: ForBuyer, Folder: "site-buyer", Banner: "The buyer’s copy",
		rights: rights{notes: true, spoken: true, work: true, lines: true, sale: true, hours: true, snagsSeen: true, withheld: true,
			suppliers: true, receipts: true, by: true, contact: true, vin: "full", plate: true}},
	{Audience: ForWorkshop, Folder: "site-workshop", Banner: "The workshop copy: not for publication", AsTyped: true,
		rights: rights{notes: true, private: true, work: true, whole: true, lines: true, purchase: true, sale: true, business: true, hours: true, snagsSeen: true,
			suppliers: true, receipts: true, by: true, contact: true, vin: "full", plate: true}},
}

func Audiences() []Audience { return pick.Map(table, func(c Copy) Audience { return c.Audience }) }

// CopyFor reads the table. An audience that it lacks has the zero row.
func CopyFor(to Audience) Copy {
	c := pick.First(table, func(c Copy) bool { return c.Audience == to })
	c.Audience = to
	return c
}

func (r rights) with(p journal.Public) rights {
	if r.asSet {
		r.work, r.lines = p.Money != "nothing", p.Money == "lines"
		r.whole = p.Money == "totals" || r.lines
		r.purchase = r.whole
		r.hours, r.snagsSeen, r.suppliers, r.vin, r.plate = p.Hours, p.Snags, p.Suppliers, p.VIN, p.Registration
	}
	return r
}

func KeptFrom() []string {
	return pick.Map(pick.Where(table, func(c Copy) bool { return !c.private }), func(c Copy) string { return string(c.Audience) })
}

// ofPurchase tells whether a stage is one of buying, of which the audience sees nothing.
func (v *viewer) ofPurchase(stage string) bool {
	s := v.st.Build.StageNamed(stage)
	return !v.purchase && s != nil && s.Purchase
}

// moneySeen tells whether a line of money belongs to what the audience may see.
func (v *viewer) moneySeen(m *journal.Money) bool { return v.whole || v.work && !v.ofBuying(m) }

// ofBuying tells whether a line of money is for getting the vehicle, not for the work on it.
func (v *viewer) ofBuying(m *journal.Money) bool {
	return v.ofPurchase(m.Stage) || v.hiddenRefund[m] || !m.Credit && !ofTheWork(m)
}

// ofTheWork tells whether a cost is one of the work, not of the vehicle or its fees.
func ofTheWork(m *journal.Money) bool { return m.Category != "vehicle" && m.Category != "fees" }

// hideRefunds finds the refunds of costs that are not of the work, by the part or the supplier they name.
func (v *viewer) hideRefunds() {
	refunds := slices.DeleteFunc(slices.Clone(v.st.Money), func(m *journal.Money) bool {
		return !m.Credit || m.Category != "refund" || len(refundKeys(m)) == 0
	})
	if len(refunds) == 0 {
		return
	}
	hidden, shown := map[string]bool{}, map[string]bool{}
	for _, m := range v.st.Money {
		if m.Credit {
			continue
		}
		for _, key := range refundKeys(m) {
			if ofTheWork(m) {
				shown[key] = true
			} else {
				hidden[key] = true
			}
		}
	}
	v.hiddenRefund = map[*journal.Money]bool{}
	for _, m := range refunds {
		key := refundKeys(m)[0]
		v.hiddenRefund[m] = hidden[key] && !shown[key]
	}
}

// refundKeys are what ties a refund to costs, the closest first.
func refundKeys(m *journal.Money) []string {
	var keys []string
	if m.Part != "" {
		keys = append(keys, "for "+m.Part)
	}
	if m.Supplier() != "" {
		keys = append(keys, "from "+m.Supplier())
	}
	return keys
}

func (v *viewer) saleSeen() bool { return v.st.Sale != nil && (v.private || !v.st.Sale.Private) }

// hide settles which ids are not shown: of private snags, of parts with only private lines, and what follows.
func (v *viewer) hide() {
	if v.private {
		return
	}
	for _, p := range v.st.Parts {
		if len(p.Lines) > 0 && !slices.ContainsFunc(p.Lines, func(l *journal.PartLine) bool { return !l.Private }) {
			v.hidden[p.ID], v.hidden[journal.SurchargeID(p.ID)] = true, true
		}
	}
	for _, s := range v.st.Snags {
		if s.Private {
			v.hidden[s.ID] = true
		}
	}
	delete(v.hidden, "") // several snags have no id
}

// Shown is where in the notes the words stand that an audience is shown.
type Shown struct {
	Lines  map[*note.Line][]source.Span // of front matter
	Bodies map[*note.Note]bool          // whose body is shown, but for its hidden items
	Hidden map[*note.Item]bool
}

// viewedAtOnce is of how many sessions of a large build the views are made at once, each of 3 KB.
const viewedAtOnce = 20_000

// ShownTo tells what words of the build an audience is shown; of some notes only, by path, unless that is nil.
func ShownTo(st *state.State, to Audience, only map[string]bool) *Shown {
	shown := &Shown{map[*note.Line][]source.Span{}, map[*note.Note]bool{}, map[*note.Item]bool{}}
	if only != nil || len(st.Sessions) <= viewedAtOnce {
		shown.add(st, to, only)
		return shown
	}
	shown.addAll(st, to, viewedAtOnce)
	return shown
}

// addAll takes in what is shown of all notes, of so many at once.
func (shown *Shown) addAll(st *state.State, to Audience, atOnce int) {
	for some := range slices.Chunk(st.Sessions, atOnce) {
		only := map[string]bool{}
		for _, s := range some {
			only[s.Path] = true
		}
		shown.add(st, to, only)
	}
}

// add takes in what is shown of some notes, or of all for nil.
func (shown *Shown) add(st *state.State, to Audience, only map[string]bool) {
	v := newViewer(st, to)
	v.only, v.shown = only, shown
	v.view()
	for _, b := range v.bodies {
		v.shown.Bodies[b.note] = true
		for _, it := range b.hidden() {
			v.shown.Hidden[it] = true
		}
		for _, l := range b.note.Lines {
			v.showsHead(l)
		}
	}
}

// narrow leaves of the state what those notes tell of, once it is known what is hidden.
func (v *viewer) narrow() {
	st := *v.st
	in := func(s *journal.Session) bool { return v.only[s.Path] }
	st.Sessions = pick.Where(st.Sessions, in)
	st.Money = pick.Where(st.Money, func(m *journal.Money) bool { return in(m.Session) })
	st.Work = pick.Where(st.Work, func(w *journal.Work) bool { return in(w.Session) })
	st.Parts = pick.Where(st.Parts, func(p *state.Part) bool {
		return slices.ContainsFunc(p.Lines, func(l *journal.PartLine) bool { return in(l.Session) })
	})
	st.Snags = pick.Where(st.Snags, func(s *state.Snag) bool {
		return slices.ContainsFunc(s.Events, func(e *state.Event) bool { return in(e.Session) })
	})
	v.st = &st
}

// counts tells whether what a session holds is seen at all.
func (v *viewer) counts(s *journal.Session) bool {
	return v.st.Counts(s.Date) && (v.only == nil || v.only[s.Path])
}

// shows notes which words of a line are shown, where somebody asks.
func (v *viewer) shows(l *note.Line, texts ...note.Text) {
	if v.shown == nil {
		return
	}
	v.shown.Lines[l] = pick.Map(pick.Where(texts, func(t note.Text) bool { return t.S != "" }), note.Text.Whole)
}

// showsHead notes the lines that every page made of their note shows.
func (v *viewer) showsHead(l *note.Line) {
	switch {
	case v.st.Build.LeftOut(l):
	case l.Kind.Key == "build", l.Kind.Key == "page", l.Kind.Key == "title", l.Kind.Key == "stage":
		v.shows(l, l.Words())
	case l.Kind.Key == "stages":
		v.shown.Lines[l] = []source.Span{l.NameSpan()}
	case l.Kind.Key == "due checks" && v.snagsSeen:
		v.shows(l, cmp.Or(textOf(l, "because"), l.Words()))
	}
}

func textOf(l *note.Line, clause string) note.Text {
	if c := l.Clause(clause); c != nil {
		return c.Arg
	}
	return note.Text{}
}
