package server

import (
	"strings"

	"guidecoat/journal/aloud"
)

// lineAt is the line of a note that a place is on, nil for none: the last that begins
// before it and ends after it, or on its line.
func (v shown) lineAt(at position) *aloud.Line {
	for _, l := range v.aloud(v.name) {
		if r := v.span(l.Span); r.Start.Line <= at.Line && at.Line <= r.End.Line {
			return l
		}
	}
	return nil
}

// hover says what the line was understood to say.
func (s *server) hover(p placeParams) (any, error) {
	v, ok := s.see(p.Document.URI)
	if !ok {
		return nil, nil
	}
	var said []string
	var at textRange
	if l := v.lineAt(p.Position); l != nil {
		at = v.span(l.Span)
		said = append(said, escaped(l.Words))
	}
	if said == nil {
		return nil, nil
	}
	return hover{markup{"markdown", strings.Join(said, "\n\n")}, at}, nil
}

// inlayHints say behind each line what it was understood to say, where that is more than
// what is typed.
func (s *server) inlayHints(p rangeParams) (any, error) {
	v, ok := s.see(p.Document.URI)
	if !ok {
		return nil, nil
	}
	hints := []inlayHint{}
	for _, l := range v.aloud(v.name) {
		at := v.span(l.Span)
		if l.Same() || l.LeftOut || at.End.Line < p.Range.Start.Line || at.Start.Line > p.Range.End.Line {
			continue
		}
		hints = append(hints, inlayHint{v.position(v.lineEnd(at)), l.Words, true})
	}
	return hints, nil
}

// lineEnd is where the words of the line end on which a range ends.
func (v shown) lineEnd(r textRange) int {
	_, end := v.line(int(r.End.Line))
	return end
}

// escaped makes Markdown that shows words as they are.
func escaped(words string) string {
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "_", `\_`, "`", "\\`", "<", `\<`, "[", `\[`, "#", `\#`, "|", `\|`, "\n", " ").Replace(words)
}
