package view

import (
	"slices"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/state"
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
		Stages: b.StageNames(), BuildPath: b.Path, Hours: v.hours, SnagsShown: v.snagsSeen, Withheld: map[note.Severity]int{},
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
