package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"guidecoat/journal/export"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"

	"github.com/rivo/uniseg"
	"github.com/spf13/cobra"
)

type entry struct {
	*view.SnagView
	v *view.View
}

type snagsAsked struct {
	day         measure.Date
	all, doable bool
	kind        string
	hours       measure.Minutes
	json        bool
	calendar    bool
	left        int     // what no longer fits into the day that is filled
	told        int     // what will be told to the buyer, so that nobody does it
	waiting     []entry // what cannot be done now
}

func newSnags(w *world) *cobra.Command {
	var ask snagsAsked
	cmd := &cobra.Command{
		Use:   "snags [DIR]",
		Short: "Lists everything outstanding.",
		Long: "Lists everything outstanding, worst and oldest first: what the notes say, and what follows by itself, such as " +
			"checks that are due after work on the brakes.\n\n" + fillRule,
		Example: "guidecoat snags halden --kind temporary\nguidecoat snags halden --hours 6h",
		PreRunE: alone("all doable", "all hours", "json calendar"),
	}
	cmd.Flags().BoolVar(&ask.all, "all", false, "list what is cleared too")
	word(cmd, &ask.kind, "kind", "list only those of that `KIND`: "+strings.Join(note.Kinds, ", "), "kind", func() []string { return note.Kinds })
	cmd.Flags().BoolVar(&ask.doable, "doable", false, "list only what can be done now, with the parts in hand")
	dayOrLength(cmd, &ask.hours, "hours", "choose what fills a day of that `LENGTH`, such as 6h, from what can be done now", measure.ParseDuration)
	cmd.Flags().BoolVar(&ask.calendar, "calendar", false, "print every day ahead as a calendar (iCalendar), papers and warranties too")
	cmd.Flags().BoolVar(&ask.json, "json", false, "print the list as JSON")
	return w.answering(cmd, &ask.day, func(p *place) error {
		views := p.views()
		entries := ask.choose(views)
		switch {
		case ask.calendar && !export.HasCalendar(views):
			w.say("No day is noted that lies ahead, so there is no calendar.")
			return nil
		case ask.calendar:
			return export.WriteCalendar(w.stdout, views...)
		case ask.json:
			list := pick.Map(entries, func(e entry) export.Object { return export.SnagOf(e.SnagView, p.folder(e.v)) })
			return export.Write(w.stdout, export.Under("snags", list))
		}
		return w.showSnags(p, views, ask, entries)
	})
}

func (ask *snagsAsked) choose(views []*view.View) []entry {
	entries := entriesOf(views)
	slices.SortStableFunc(entries, func(a, b entry) int { return view.CompareSnags(a.SnagView, b.SnagView) })
	var chosen []entry
	toDo := ask.doable || ask.hours > 0
	for _, e := range entries {
		switch {
		case !ask.all && !e.Open, ask.kind != "" && e.Kind != ask.kind:
		case toDo && e.Disclose:
			ask.told++
		case toDo && !e.Doable:
			ask.waiting = append(ask.waiting, e)
		default:
			chosen = append(chosen, e)
		}
	}
	if ask.hours > 0 {
		chosen, ask.left = fill(chosen, ask.hours)
	}
	return chosen
}

func entriesOf(views []*view.View) []entry {
	return pick.Gather(views, func(v *view.View) []entry {
		return pick.Map(v.Snags, func(s *view.SnagView) entry { return entry{s, v} })
	})
}

func (w *world) showSnags(p *place, views []*view.View, ask snagsAsked, entries []entry) error {
	s := newScreen(w.stdout, w.getenv)
	s.say("", ask.total(entries))
	s.say("", ask.temporary(views))
	s.sayIf(p.leftOut())
	s.gap()
	snagTable(entries).print(s)
	if len(ask.waiting) > 0 {
		s.gap()
		s.say("", "What cannot be done now:")
	}
	for _, e := range ask.waiting {
		s.say("    ", e.name()+": "+e.standing())
	}
	for _, v := range views {
		if len(ask.waiting) > 0 {
			s.sayIf(chase(v))
		}
	}
	if ask.kind == "" && !ask.doable && ask.hours == 0 {
		s.below(partsToCome(views))
	}
	if ask.doable && ask.kind == "" {
		for i, v := range views {
			s.plan(p, v, p.states[i].Plan())
		}
	}
	return s.flush()
}

// partsToCome says how many parts are outstanding besides, which have a list of their own.
func partsToCome(views []*view.View) string {
	states := map[string]int{}
	for _, v := range views {
		for _, p := range v.Parts {
			states[p.State]++
		}
	}
	said := together(", ", some(states["needed"], "%d needed"), some(states["ordered"], "%d on order"))
	return pick.Either(said == "", "", "Parts to come: "+said+"; see guidecoat parts.")
}

// snagTable cuts the words of snags where it must, and no ids.
func snagTable(entries []entry) *table {
	t := &table{columns: []column{
		{head: "severity"}, {head: "snag", least: 12}, {head: "since"}, {head: "due"}, {head: "where"},
	}}
	for _, e := range entries {
		t.rows = append(t.rows, e.row())
		t.columns[1].least = max(t.columns[1].least, uniseg.StringWidth(e.ID))
	}
	return t
}

// chase names the part that holds up most, where it holds up several snags.
func chase(v *view.View) string {
	holdups := v.Holdups()
	if len(holdups) == 0 || len(holdups[0].Snags) < 2 {
		return ""
	}
	p := holdups[0].Part
	due, from := pick.Either(p.Due != 0 && p.Waited(), "due "+p.Due.String(), ""), pick.Either(p.Supplier != "" && p.Waited(), "from "+p.Supplier, "")
	state := together(", ", p.State, due, from)
	return fmt.Sprintf("Chase %s (%s): %d snags wait for it.", p.ID, state, len(holdups[0].Snags))
}

// time is how long it is planned to take.
func (e entry) time() measure.Minutes {
	time, _ := e.Time()
	return time
}

func (e entry) name() string { return cmp.Or(e.ID, note.PlainWords(e.Typed)) }

var severityStyle = map[note.Severity]style{note.Dangerous: red, note.Major: yellow}

// row shows a snag: by its id, or by its words where it has none.
func (e entry) row() row {
	words := note.PlainWords(e.Typed)
	name := e.ID
	if name == "" {
		name, words = words, ""
	}
	words = strings.TrimPrefix(words, e.ID+" ") // a check due says its name itself
	if e.Kind != "" && e.Kind != "job" {
		words = strings.TrimSuffix(e.Kind+": "+words, ": ")
	}
	r := row{
		cells: []string{e.Severity.String(), name, e.Opened.String(), e.DueText(),
			fmt.Sprintf("%s:%d", e.Note, e.Line)},
		style: severityStyle[e.Severity],
	}
	r.below = pick.Where([]string{words, note.Decode(e.Code), e.standing()}, func(line string) bool { return line != "" })
	return r
}

func (e entry) standing() string {
	switch {
	case !e.Open && e.Undated:
		return "ticked off, day not recorded"
	case !e.Open:
		return fmt.Sprintf("cleared %s at %s:%d", e.Cleared, e.ClearedAt, e.ClearedRow)
	}
	waits, early := e.waiting(), ""
	if e.TooEarly {
		early = "from " + e.NotBefore.String() + " on"
	}
	return together("; ",
		pick.Either(e.Overdue, "overdue", ""),
		pick.Either(waits != nil, "waits for "+strings.Join(waits, ", "), ""),
		early,
		pick.Either(e.Takes > 0, "takes "+e.Takes.String(), ""),
		pick.Either(e.Disclose, "will be told to the buyer", ""))
}

func (e entry) waiting() []string {
	var list []string
	for _, id := range e.WaitsFor {
		if part := e.v.Part(id); part != nil {
			if !part.InHand() {
				list = append(list, id+" ("+part.State+")")
			}
			continue
		}
		if s := e.v.Snag(id); s == nil {
			list = append(list, id+" (not there yet)")
		} else if s.Open {
			list = append(list, id+" (open)")
		}
	}
	return list
}

func (ask snagsAsked) total(entries []entry) string {
	if ask.hours > 0 {
		return ask.filled(entries)
	}
	var open, overdue int
	var time measure.Minutes
	bySeverity := map[note.Severity]int{}
	for _, e := range entries {
		if !e.Open {
			continue
		}
		open++
		bySeverity[e.Severity]++
		time += e.time()
		overdue += one(e.Overdue)
	}
	var parts []string
	for sev := note.Dangerous; sev >= note.Minor; sev-- {
		parts = append(parts, some(bySeverity[sev], "%d "+sev.String()))
	}
	parts = append(parts, some(overdue, "%d overdue"))
	what := together(" ", ask.kind, pick.Either(ask.doable, "can be done now", "outstanding"))
	text := together(": ", fmt.Sprintf("%d %s", open, what), together(", ", parts...))
	text += some(len(ask.waiting), "; %d cannot") + some(ask.told, "; %d will be told to the buyer instead")
	if ask.doable && open > 0 {
		text += strings.TrimSuffix(together(" ", fmt.Sprintf(". They take %s.", time), hourEach(entries)), ".")
	}
	if cleared := len(entries) - open; ask.all {
		text += fmt.Sprintf("; %d cleared", cleared)
	}
	return text + "."
}

// temporary names the temporary fixes in place, whatever is listed: they are what a builder forgets.
func (ask snagsAsked) temporary(views []*view.View) string {
	if ask.kind != "" {
		return ""
	}
	inPlace := pick.Where(entriesOf(views), func(e entry) bool { return e.Open && e.Kind == "temporary" })
	names := pick.Map(inPlace, entry.name)
	if names == nil {
		return "No temporary fix is in place."
	}
	return sentence(len(names), "1 temporary fix is in place: ", "%d temporary fixes are in place: ") + strings.Join(names, ", ") + "."
}

func one(yes bool) int {
	return pick.Either(yes, 1, 0)
}
