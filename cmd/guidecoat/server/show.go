package server

import (
	"fmt"
	"slices"
	"strings"

	"guidecoat/journal/aloud"
	"guidecoat/journal/pick"
)

// lineAt is the line of a note that a place is on, nil for none.
func (v shown) lineAt(at position) *aloud.Line {
	return pick.First(v.aloud(v.name), func(l *aloud.Line) bool {
		r := v.span(l.Span)
		return r.Start.Line <= at.Line && at.Line <= r.End.Line
	})
}

// rows are the whole lines that a range is on.
func (l *lines) rows(r textRange) textRange {
	start, _ := l.line(int(r.Start.Line))
	_, end := l.line(int(r.End.Line))
	return l.between(start, end)
}

// hover says what the line was understood to say, and the history of what is named there.
func (s *server) hover(p placeParams) (any, error) {
	v, ok := s.see(p.Document.URI)
	if !ok {
		return nil, nil
	}
	var said []string
	var at textRange
	if l := v.lineAt(p.Position); l != nil {
		at, said = v.rows(v.span(l.Span)), append(said, escaped(l.Words))
	}
	if m := v.mentionAt(p.Position); m != nil {
		at, said = v.span(m.span), append(said, v.history(m.thing))
	} else if about, word := v.about(v.name, p.Position); about != "" {
		at, said = word, append(said, escaped(about))
	}
	if said == nil {
		return nil, nil
	}
	return hover{markup{"markdown", strings.Join(said, "\n\n")}, at}, nil
}

// longestHistory is how many lines of one are told.
const longestHistory = 12

// history is how a thing stands and each line that names it, the newest last.
func (r *reading) history(t thing) string {
	var b strings.Builder
	fmt.Fprintf(&b, "**%s**%s", escaped(t.name), escaped(r.standing(t)))
	var told []string
	for _, m := range r.of(t) {
		if m.line == nil || m.session == nil {
			continue
		}
		words := m.line.Text.S
		if m.line.Name != "" {
			words = m.line.Name + ": " + words
		}
		if line := "\n- " + m.session.Date.String() + " " + escaped(words); len(told) == 0 || told[len(told)-1] != line {
			told = append(told, line)
		}
	}
	b.WriteString("\n")
	if more := len(told) - longestHistory; more > 0 {
		fmt.Fprintf(&b, "\n- %d more before", more)
		told = told[more:]
	}
	b.WriteString(strings.Join(told, ""))
	return b.String()
}

// standing says how a thing stands today.
func (r *reading) standing(t thing) string {
	b := r.state.Build
	if part := r.state.Part(t.name); part != nil && t.sort == anID {
		said := ": " + part.Description + ", " + part.State + " since " + part.Since.String()
		if part.Paid != nil && !part.Paid.IsZero() {
			said += ", " + b.ShowMoney(*part.Paid) + " paid"
		}
		return said
	}
	if snag := r.state.Snag(t.name); snag != nil && t.sort == anID {
		if !snag.Open {
			return ": " + snag.PlainWords() + ", " + snag.Severity.String() + ", cleared"
		}
		return ": " + snag.PlainWords() + ", " + snag.Severity.String() + ", open since " + snag.Opened.String()
	}
	if stage := b.StageNamed(t.name); stage != nil && t.sort == aStage && stage.Budget != nil {
		return ": budget " + b.ShowMoney(stage.Budget[0]) + ", " + b.ShowMoney(stage.Budget[1]) + " or " + b.ShowMoney(stage.Budget[2])
	}
	return ""
}

// inlayHints say behind each line what it was understood to say, but for what is typed
// there in the same words.
func (s *server) inlayHints(p rangeParams) (any, error) {
	hints := []inlayHint{}
	v, ok := s.see(p.Document.URI)
	if !ok {
		return hints, nil
	}
	for _, l := range v.aloud(v.name) {
		at := v.span(l.Span)
		more := notTyped(l)
		if more == "" || l.LeftOut || at.End.Line < p.Range.Start.Line || at.Start.Line > p.Range.End.Line {
			continue
		}
		_, end := v.line(int(at.End.Line))
		hints = append(hints, inlayHint{v.position(end), more, true})
	}
	return hints, nil
}

// notTyped is what a line was understood to say without its clauses that say the same; ""
// where nothing is left but how it begins.
func notTyped(l *aloud.Line) string {
	typed := strings.TrimPrefix(l.Typed(), l.Name+": ")
	clauses := pick.Map(strings.Split(typed, ";"), strings.TrimSpace)
	said := strings.Split(l.Words, aloud.Between)
	said = append(said[:1], pick.Where(said[1:], func(piece string) bool { return !slices.Contains(clauses, piece) })...)
	if len(said) == 1 && strings.HasPrefix(typed, said[0]) {
		return ""
	}
	return strings.Join(said, aloud.Between)
}

// escaped makes Markdown that shows words as they are.
func escaped(words string) string {
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "_", `\_`, "`", "\\`", "<", `\<`, "[", `\[`, "#", `\#`, "|", `\|`, "\n", " ").Replace(words)
}
