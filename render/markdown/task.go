package markdown

import (
	"cmp"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
)

// putTask returns the checkbox that a block begins with, nil where it has none.
func putTask(n ast.Node) *east.TaskCheckBox {
	if n.FirstChild() == nil || n.FirstChild().Kind() != east.KindTaskCheckBox {
		return nil
	}
	if _, ok := n.Parent().(*ast.ListItem); !ok {
		return nil
	}
	return n.FirstChild().(*east.TaskCheckBox)
}

// putSnag returns what has become of a task-list item; nil in a body without snags.
func putSnag(p *page, item ast.Node) *view.ItemView {
	if p.body == nil || !p.body.Snags {
		return nil
	}
	return p.body.Items[note.ItemAt(item)]
}

// A stance is how an item is marked. Nothing on a page can be ticked.
type stance struct{ class, sign, words string }

var (
	isOpen     = stance{"open", "☐", "open"}
	isCleared  = stance{"cleared", "☑", "cleared"}
	isRemarked = stance{"remarked", "✎", "remark"}
	isReopened = stance{"reopened", "↻", "opened again"}
	isDone     = stance{"done", "☑", "done"}
)

func putStateMark(p *page, s stance) {
	p.put(`<span class="mark" role="img"`)
	p.attr("lang", p.l.Lang)
	p.attr("aria-label", p.l.Tongue.Word(s.words))
	p.put(">", s.sign, "</span> ")
}

// putCheckBox writes the box of an item in a body without snags.
func putCheckBox(p *page, n ast.Node, entering bool) ast.WalkStatus {
	if entering {
		putStateMark(p, box(n.(*east.TaskCheckBox).IsChecked))
	}
	return ast.WalkContinue
}

func box(ticked bool) stance {
	return pick.Either(ticked, isDone, isOpen)
}

func putTaskItem(p *page, n ast.Node, ticked bool) {
	v := putSnag(p, n)
	if v == nil {
		p.tag("li", "task "+box(ticked).class)
		if n.FirstChild().Kind() != ast.KindTextBlock {
			p.WriteByte('\n')
		}
		return
	}
	s := stateOf(v)
	class := "snag " + s.class
	if v.Snag == nil {
		class += " not-understood"
	} else if severity := v.Snag.Severity.String(); severity != "" {
		class += " " + severity
	}
	p.tag("li", class)
	p.tag("p", "snag-line")
	putStateMark(p, s)
	putSnagLine(p, v, s)
	p.put("</p>\n")
}

func stateOf(v *view.ItemView) stance {
	switch {
	case v.What == fact.Reopened:
		return isReopened
	case v.What == fact.Remarked:
		return isRemarked
	case v.Ticked || v.What == fact.Cleared:
		return isCleared
	}
	return isOpen
}

func putSnagLine(p *page, v *view.ItemView, s stance) {
	if v.Snag == nil {
		p.inline(v.Words)
		return
	}
	plain := v.Snag.Kind == "job" || v.Snag.Kind == ""
	if !plain {
		putBadge(p, "kind", v.Snag.Kind)
	}
	if plain || v.Snag.Severity > note.Minor { // one badge where one says it
		putBadge(p, "severity", v.Snag.Severity.String())
	}
	if v.Snag.ID != "" {
		p.entry("snag-id", v.Snag.ID, v.Snag.ID)
		p.WriteByte(' ')
	}
	words := cmp.Or(v.Words, p.l.Tongue.Tell(v.Snag.Said), v.Snag.Text)
	p.tag("span", "words")
	p.inline(words)
	p.put("</span>")
	if v.Snag.Undated && v.Ticked {
		putWordTag(p, "undated", p.l.Tongue.Say("ticked off, day not recorded"))
	}
	if s == isOpen || s == isReopened {
		p.tags(v.Snag)
	}
}

func putBadge(p *page, sort, word string) {
	if word != "" {
		p.put(`<span`)
		p.attr("class", "badge "+sort+" "+word)
		p.attr("lang", p.l.Lang)
		p.put(">")
		p.text(p.l.Tongue.Word(word))
		p.put("</span> ")
	}
}

// entry writes words that stand for an id, as a link to its entry where it has one.
func (p *page) entry(class, id, words string) {
	href := ""
	if p.l.Snag != nil {
		href = p.l.Snag(id)
	}
	if !safe(href) {
		p.element("span", class, words)
		return
	}
	p.put("<a")
	p.attr("class", class)
	p.attr("href", href)
	p.put(">")
	p.text(words)
	p.put("</a>")
}

// tags writes the clauses that stand with a snag.
func (p *page) tags(s *view.SnagView) {
	switch {
	case s.Open:
		putPlans(p, s)
	case s.Cleared != s.Opened: // it was put right since
		p.openTag("cleared")
		p.text(p.l.Tongue.Say("cleared") + " ")
		p.date(s.Cleared)
		p.put("</span>")
	}
	if s.System != "" {
		class := "system"
		if note.IsSafety(s.System) {
			class += " safety"
		}
		putWordTag(p, class, p.l.Tongue.Name(s.System))
	}
	if s.Disclose {
		putWordTag(p, "disclose", p.l.Tongue.Say("told to the buyer"))
	}
	if s.Private {
		putWordTag(p, "private", p.l.Tongue.Say("private"))
	}
}

// putPlans writes when and after what an open snag is to be put right.
func putPlans(p *page, s *view.SnagView) {
	due := pick.Either(s.Overdue, "due overdue", "due")
	if s.Due != 0 {
		p.openTag(due)
		p.text(p.l.Tongue.Say("due") + " ")
		p.date(s.Due)
		p.put("</span>")
	}
	if s.DueAt != nil {
		putWordTag(p, due, p.l.Tongue.Say("due at %s", *s.DueAt))
	}
	for _, id := range s.WaitsFor {
		p.openTag("waits")
		p.text(p.l.Tongue.Say("waits for") + " ")
		p.entry("", id, id)
		p.put("</span>")
	}
	if s.Takes != 0 {
		putWordTag(p, "takes", p.l.Tongue.Say("takes %s", s.Takes))
	}
}

func (p *page) openTag(class string) {
	p.WriteByte(' ')
	p.put(`<span`)
	p.attr("class", "tag "+class)
	p.attr("lang", p.l.Lang)
	p.put(">")
}

func putWordTag(p *page, class, words string) {
	p.openTag(class)
	p.text(words)
	p.put("</span>")
}

func (p *page) date(d measure.Date) {
	p.put("<time")
	p.attr("datetime", d.String())
	p.put(">")
	p.text(p.l.Tongue.Day(d))
	p.put("</time>")
}
