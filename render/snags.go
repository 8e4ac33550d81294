package render

import (
	"cmp"
	"path"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markdown"
	"guidecoat/render/markup"
)

// Snags: how they count, where they stand, and how each is told.

// sources say where a snag comes from that nobody wrote down as one.
var sources = map[fact.Source]string{
	fact.FromDue:        "check due after work",
	fact.FromCheck:      "failed check",
	fact.FromReading:    "reading outside its limits",
	fact.FromScan:       "fault code",
	fact.FromSurcharge:  "surcharge to come back",
	fact.FromInspection: "found by the official inspection",
	fact.FromFastener:   "fastener to tighten",
	fact.FromDamage:     "fired or flooded restraint",
	fact.FromPaper:      "paper that runs out",
}

// happened words what an event did.
var happened = map[fact.EventKind]string{
	fact.Opened: "Opened", fact.Remarked: "Noted", fact.Cleared: "Cleared", fact.Reopened: "Opened again",
}

// sourceOf says where a snag comes from that nobody wrote down as one.
func (s *voice) sourceOf(x *view.SnagView) string {
	if x.Source == fact.FromCheck && x.Failed != x.Opened { // the work made it due before it failed
		return s.Say("check due since then, failed on %s", x.Failed)
	}
	return s.Word(sources[x.Source])
}

func (s *voice) dueOf(x *view.SnagView) string {
	if x.DueAt == nil {
		return s.Day(x.Due)
	}
	return s.List(nonEmpty(s.Day(x.Due), s.Say("at %s", s.Distance(x.DueAt.String())))...)
}

// wordsOn are a snag's words as they were on that day.
func (s *voice) wordsOn(x *view.SnagView, session string) string {
	words := s.wordsOf(x)
	for _, e := range x.Events {
		switch {
		case e.Session != session || e.What == fact.Cleared:
		case x.Source == fact.FromReading, x.Source == fact.FromCheck && e.What == fact.Opened && e.Date != x.Failed: // it failed later
			words = s.eventWords(e)
		}
	}
	return words
}

func isTemporary(x *view.SnagView) bool { return x.Kind == "temporary" }

// kindOf leaves out the kind that is taken for granted.
func kindOf(x *view.SnagView) string { return given(x.Kind != "job", x.Kind) }

// worthTelling are the events of a snag that are worth telling: opened and cleared are told anyway.
func worthTelling(x *view.SnagView) []view.EventView {
	if len(x.Events) < 3 {
		return nil
	}
	return x.Events
}

// Where a snag stands in the list: temporary fixes first, then what is outstanding, then what was cleared.
const (
	atTemporary = iota
	atOpen
	atTold
	atCleared
)

func standing(x *view.SnagView) int {
	switch {
	case !x.Open:
		return atCleared
	case isTemporary(x):
		return atTemporary
	case x.Disclose:
		return atTold
	}
	return atOpen
}

// snagGroups are the headings in the list of all, by where a snag stands.
var snagGroups = [...]struct{ id, name string }{{"_temporary", "Temporary fixes"}, {"_open", "To be done"}, {"_told", "Told to the buyer"}, {"_cleared", "Cleared"}}

// systemOf is the system that a snag is told under. A fault code's is that of its control unit.
func systemOf(x *view.SnagView) string { return cmp.Or(note.SystemOfUnit(x.Unit), x.System) }

func systemRank(x *view.SnagView) int { return rankOf(systemOf(x)) }

// rankOf is the place of a system in the list of all; of none it is the last.
func rankOf(system string) int {
	at := slices.Index(note.Systems, system)
	return pick.Either(at < 0, len(note.Systems), at)
}

func (s *voice) systemName(system string) string {
	return pick.Either(rankOf(system) == len(note.Systems), s.Say("Everything else"), title(s.Name(system)))
}

// countOpen counts the outstanding snags that are so.
func countOpen(s *site, is func(*view.SnagView) bool) int {
	return pick.Count(s.v.Snags, func(x *view.SnagView) bool { return x.Outstanding() && is(x) })
}

// A tally counts the snags, with those that are not shown.
type tally struct{ open, told, cleared, unseen int } // told to the buyer; open and not shown

func tallyOf(s *site) tally {
	open := countOpen(s, func(*view.SnagView) bool { return true })
	told := pick.Count(s.v.Snags, func(x *view.SnagView) bool { return x.Open && !x.Outstanding() })
	return tally{open + s.v.UnseenOpen, told, len(s.v.Snags) - open - told + s.v.UnseenCleared, s.v.UnseenOpen}
}

// tallied says how many are cleared, and how many that are open are not shown.
func (s *voice) tallied(t tally) string {
	return strings.Join(nonEmpty(s.Say("%d cleared", t.cleared), given(t.unseen > 0, s.Say("%d not shown", t.unseen))), ", ") + s.toldWords(t)
}

// toldWords are how many are told to the buyer instead of mended, behind a comma.
func (s *voice) toldWords(t tally) string {
	return given(t.told > 0, ", "+s.Say("%d told to the buyer", t.told))
}

// warningsOf say what is dangerous or held together for now, and lead there.
func warningsOf(s *site) []Link {
	dangerous, fixes := countOpen(s, func(x *view.SnagView) bool { return x.Severity == note.Dangerous }), countOpen(s, isTemporary)
	list := []Link{{Text: given(dangerous > 0, s.Say("%d dangerous", dangerous)), Href: s.snags.to("index.html", "_open")},
		{Text: given(fixes > 0, s.Say("%d temporary fixes", fixes)), Href: s.snags.to("index.html", "_temporary")}}
	return pick.Where(list, func(l Link) bool { return l.Text != "" })
}

func (p *leaf) openSnag(x *view.SnagView) {
	kind := kindOf(x)
	p.Raw(`<li class="item `).Text(x.Severity.String()).With(" ", kind, "").Raw(`"`).With(` id="`, p.paths.snags[x], `"`).Raw(`>
<p class="labels">`)
	p.severity(x).With(` <span class="tape">`, given(!isTemporary(x), p.Word(kind)), "</span>") // else the heading says so
	p.snagID(x)
	p.private(x.Private).Raw(`</p>
<p class="words"`)
	p.wording(x.Said, x.Words).Raw(`>`)
	p.snagWords(x, p.wordsOf(x)).Raw("</p>\n")
	p.prints(x.Photos(), note.PlainWords(p.wordsOf(x))).Raw(`
<p class="about">{since} `)
	p.date(x.Session, x.Opened)
	p.where(x).With(" · ", p.sourceOf(x), "").With(" · {takes} ", p.some(x.Takes), "").With(" · {due} ", p.dueOf(x), "").If(x.Overdue, ` <strong class="late">{overdue}</strong>`)
	if len(x.WaitsFor) > 0 {
		if p.Raw(" · "); x.Doable {
			p.Raw("{what it waits for is here:} ")
		} else {
			p.Raw("{waits for} ")
		}
		for i, id := range x.WaitsFor {
			p.If(i > 0, ", ")
			p.quoted(p.toID(p.path, id), p.named(id))
		}
		p.If(x.Doable, "; {can be done now}")
	}
	p.typedLine(x)
	p.story(x)
}

func (p *leaf) clearedSnag(x *view.SnagView) {
	p.Raw(`<li class="item"`).With(` id="`, p.paths.snags[x], `"`).Raw(`>
<p class="words"`)
	p.wording(x.Said, x.Words).Raw(`>`)
	p.snagWords(x, p.wordsOf(x)).Raw("</p>\n")
	p.how(x).Raw("\n")
	p.prints(x.Photos(), note.PlainWords(p.wordsOf(x))).Raw("\n<p class=\"about\">")
	if x.Severity > note.Minor {
		p.severity(x).Raw(" ")
	}
	p.date(x.Session, x.Opened)
	if x.Undated {
		p.Raw(", {ticked off, day not recorded}")
	} else {
		p.Raw(" {to} ")
		p.date(x.ClearedIn, x.Cleared)
	}
	p.With(" · ", p.Word(kindOf(x)), "").With(" · ", p.sourceOf(x), "")
	p.snagID(x)
	p.private(x.Private)
	p.typedLine(x)
	p.story(x)
}

func (p *leaf) severity(x *view.SnagView) *markup.W {
	return p.Raw(`<span class="severity `).Text(x.Severity.String()).Raw(`">`).Text(p.Word(x.Severity.String())).Raw("</span>")
}

func (p *leaf) snagID(x *view.SnagView) *markup.W { return p.With(" <code>", x.ID, "</code>") }

// snagWords writes words that were said of a snag.
func (p *leaf) snagWords(x *view.SnagView, words string) *markup.W {
	return p.Markdown(p.md.InlineWith(words, linksFrom(p.site, p.path, path.Dir(x.Note))))
}

// how tells how a snag was cleared, unless the line that opened it was ticked, and says the same.
func (p *leaf) how(x *view.SnagView) *markup.W {
	if n := len(x.Events); n > 0 && x.Events[n-1].What == fact.Cleared && !strings.HasSuffix(x.Words, x.Events[n-1].Words) {
		p.Raw(`<p class="how"`)
		p.wording(x.Events[n-1].Said, x.Events[n-1].Words).Raw(`>`)
		p.snagWords(x, p.eventWords(x.Events[n-1])).Raw("</p>")
	}
	return p.W
}

// typedLine leads to the line in the note as typed, and ends what is told in one paragraph.
func (p *leaf) typedLine(x *view.SnagView) {
	if to := p.paths.notes[x.Note]; to != "" {
		line := strconv.Itoa(x.Line)
		p.Raw(" · ")
		p.link(root(p.path)+to+"#"+markdown.LineAnchor(x.Line), p.Say("line %s", line))
	}
	p.Raw("</p>\n")
}

// story folds away what was said of a snag, and ends it.
func (p *leaf) story(x *view.SnagView) {
	if events := worthTelling(x); len(events) > 0 {
		p.Raw("<details><summary>{Its story}</summary>")
		p.events(x, events)
		p.Raw("</details>")
	}
	p.Raw("</li>\n")
}

func (p *leaf) events(x *view.SnagView, list []view.EventView) {
	markup.Each(p.W, list, "<ol class=\"events\">\n", func(e view.EventView) {
		p.Raw("<li><b>").Text(p.Word(happened[e.What])).Raw("</b> ")
		p.date(e.Session, e.Date)
		if e.Words != "" {
			p.Raw(": ")
			p.worded(e.Said, e.Words, func() { p.snagWords(x, p.eventWords(e)) })
		}
		p.Raw("</li>\n")
	}, "</ol>")
}

// where names the stage and the system.
func (p *leaf) where(x *view.SnagView) *markup.W {
	p.Quote(" · ", x.Stage, "")
	if x.System == x.Stage || x.System == "" {
		return p.W
	}
	return p.If(x.Stage != "", ", ").If(x.Stage == "", " · ").Named(x.System, p.Name(x.System))
}
