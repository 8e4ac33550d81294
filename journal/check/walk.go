package check

import (
	"bytes"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/state"
)

// Words are one file whose words a page shows: the job card, a session or an extra page.
type words struct {
	note    *note.Note
	private bool // of the whole note
}

// notesOf are those of a build, whatever the date, of the paths asked for; all for nil.
func notesOf(b *journal.Build, only map[string]bool) []words {
	var list []words
	add := func(n *note.Note, private bool) {
		if only == nil || only[n.File.Path] {
			list = append(list, words{n, private})
		}
	}
	add(b.Card.Note, false)
	for _, s := range b.Sessions {
		add(s.Note, s.Private)
	}
	for _, pg := range b.Pages {
		add(pg.Note, pg.Private)
	}
	return list
}

// looks tells whether the note of a session is looked at.
func (p *Pass) looks(s *journal.Session) bool { return p.only == nil || p.only[s.Path] }

// leftOut tells whether a line counts nowhere.
func (p *Pass) leftOut(l *note.Line) bool { return p.State.Build.LeftOut(l) }

// doubtful are the words of lines left out for a mistake: nothing is said for lack of them.
func (p *Pass) doubtful() map[string]bool {
	b := p.State.Build
	inBuild := map[*source.File]bool{}
	for _, w := range notesOf(b, nil) {
		inBuild[w.note.File] = true
	}
	doubt := map[string]bool{}
	takeIn := func(text string) {
		for word := range strings.FieldsFuncSeq(text, func(r rune) bool { return !isIDRune(r) }) {
			doubt[word] = true
		}
	}
	type line struct {
		file *source.File
		n    int
	}
	seen := map[line]bool{}
	for _, f := range p.errors {
		at := line{f.Span.File, 0} // the whole of a note that was left out
		text := ""
		if inBuild[f.Span.File] {
			at.n = f.Span.Begin().Line
		}
		if seen[at] {
			continue
		}
		seen[at] = true
		if at.n == 0 {
			text = string(f.Span.File.Data)
		} else {
			data := f.Span.File.Data
			line, _, _ := bytes.Cut(data[bytes.LastIndexByte(data[:f.Span.Start], '\n')+1:], []byte("\n"))
			text = string(line)
		}
		takeIn(text)
	}
	for _, s := range b.Sessions {
		for i := range s.Note.Fields {
			if f := &s.Note.Fields[i]; f.Repeated { // reported at its key, and lost with what stands below
				for _, l := range f.Lines() {
					takeIn(l.S)
				}
			}
		}
	}
	return doubt
}

func isIDRune(r rune) bool { return r == '-' || r >= 'a' && r <= 'z' || r >= '0' && r <= '9' }

// lastIn returns the line in which a part last came into that state from another.
func lastIn(part *state.Part, state string) *journal.PartLine {
	var at *journal.PartLine
	for i, l := range part.Lines {
		if l.State == state && (i == 0 || part.Lines[i-1].State != state) {
			at = l
		}
	}
	return at
}
