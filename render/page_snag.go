package render

import (
	"cmp"
	"path"
	"strconv"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
	"guidecoat/render/markdown"
	"guidecoat/render/markup"
)

func (p *leaf) openSnag(x *view.SnagView) {
	kind := kindOf(x)
	p.Raw(`<li class="item `).Text(x.Severity.String()).With(" ", kind, "").Raw(`"`).With(` id="`, p.paths.snags[x], `"`).Raw(`>
<p class="labels">`)
	p.severity(x)
	if !isTemporary(x) { // the heading says so
		p.With(` <span class="tape">`, p.Word(kind), "</span>")
	}
	p.snagID(x)
	p.private(x.Private).Raw(`</p>
<p class="words"`)
	p.wording(x.Said, x.Words).Raw(`>`)
	p.words(x, p.wordsOf(x)).Raw("</p>\n")
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
			p.quoted(p.id(p.path, id), p.named(id))
		}
		p.If(x.Doable, "; {can be done now}")
	}
	p.typed(x)
	p.story(x)
}

func (p *leaf) clearedSnag(x *view.SnagView) {
	p.Raw(`<li class="item"`).With(` id="`, p.paths.snags[x], `"`).Raw(`>
<p class="words"`)
	p.wording(x.Said, x.Words).Raw(`>`)
	p.words(x, p.wordsOf(x)).Raw("</p>\n")
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
	p.typed(x)
	p.story(x)
}

func (p *leaf) severity(x *view.SnagView) *markup.W {
	return p.Raw(`<span class="severity `).Text(x.Severity.String()).Raw(`">`).Text(p.Word(x.Severity.String())).Raw("</span>")
}

func (p *leaf) snagID(x *view.SnagView) *markup.W { return p.With(" <code>", x.ID, "</code>") }

// words writes words that were said of a snag.
func (p *leaf) words(x *view.SnagView, words string) *markup.W {
	return p.Markdown(p.md.InlineWith(words, linksFrom(p.site, p.path, path.Dir(x.Note))))
}

// how tells how a snag was cleared, unless the line that opened it was ticked, and says the same.
func (p *leaf) how(x *view.SnagView) *markup.W {
	if n := len(x.Events); n > 0 && x.Events[n-1].What == fact.Cleared && !strings.HasSuffix(x.Words, x.Events[n-1].Words) {
		p.Raw(`<p class="how"`)
		p.wording(x.Events[n-1].Said, x.Events[n-1].Words).Raw(`>`)
		p.words(x, p.eventWords(x.Events[n-1])).Raw("</p>")
	}
	return p.W
}

// typed leads to the line in the note as typed, and ends what is told in one paragraph.
func (p *leaf) typed(x *view.SnagView) {
	if to := p.paths.notes[x.Note]; to != "" {
		line := strconv.Itoa(x.Line)
		p.Raw(" · ")
		p.link(root(p.path)+to+"#"+markdown.LineAnchor(x.Line), p.Say("line %s", line))
	}
	p.Raw("</p>\n")
}

// story folds away what was said of a snag, and ends it.
func (p *leaf) story(x *view.SnagView) {
	if events := told(x); len(events) > 0 {
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
			p.worded(e.Said, e.Words, func() { p.words(x, p.eventWords(e)) })
		}
		p.Raw("</li>\n")
	}, "</ol>")
}

// kindOf leaves out the kind that is taken for granted.
func kindOf(x *view.SnagView) string {
	if x.Kind == "job" {
		return ""
	}
	return x.Kind
}

// where names the stage and the system.
func (p *leaf) where(x *view.SnagView) *markup.W {
	p.Quote(" · ", x.Stage, "")
	if x.System == x.Stage || x.System == "" {
		return p.W
	}
	return p.If(x.Stage != "", ", ").If(x.Stage == "", " · ").Named(x.System, p.Name(x.System))
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

// wordsOf are a snag's words, and eventWords what was said of it, in the language of the page.
func (s *voice) wordsOf(x *view.SnagView) string    { return cmp.Or(s.Tell(x.Said), x.Words) }
func (s *voice) eventWords(e view.EventView) string { return cmp.Or(s.Tell(e.Said), e.Words) }

// told are the events of a snag that are worth telling: opened and cleared are told anyway.
func told(x *view.SnagView) []view.EventView {
	if len(x.Events) < 3 {
		return nil
	}
	return x.Events
}

func nonEmpty(list ...string) []string {
	return pick.Where(list, func(s string) bool { return s != "" })
}
