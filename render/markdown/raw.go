package markdown

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"

	"github.com/alecthomas/chroma/v2"
)

// LineAnchor is the anchor of a line of a note as it was typed.
func LineAnchor(line int) string { return "typed-" + strconv.Itoa(line) }

// Note shows a note as typed: lines numbered, problems marked and told below, and by line what was understood.
func (r *Renderer) Note(f *source.File, problems []problem.Problem, read map[int]string) HTML {
	p := r.page(Links{})
	defer r.put(p)
	w := rawWriter{page: p, tokens: typedTokens(f), marks: marksOf(f, problems), read: read}
	p.put(`<ol class="raw chroma">`, "\n")
	for i, l := range linesOf(f) {
		if l.last && l.start == l.end && i > 0 && len(w.marks) == 0 {
			break // what follows the last newline is no line, unless a problem stands there
		}
		w.line(i+1, l)
	}
	p.put("</ol>\n")
	return p.html()
}

// A rawLine is where a line's words stand, and where the next line begins.
type rawLine struct {
	start, end, next int
	last             bool
}

// linesOf returns the lines of a file as typed, without their comments, numbered as in messages.
func linesOf(f *source.File) []rawLine {
	var list []rawLine
	for s := range f.Lines {
		l := rawLine{start: int(s.Start), next: int(s.End)}
		l.end = l.start + len(strings.TrimSuffix(strings.TrimSuffix(s.Text(), "\n"), "\r"))
		list = append(list, l)
	}
	list[len(list)-1].last = true
	return list
}

type mark struct {
	start, end int
	*problem.Problem
}

// marksOf returns the problems that stand in that file, by where they begin.
func marksOf(f *source.File, problems []problem.Problem) []mark {
	var list []mark
	for i := range problems {
		p := &problems[i]
		if p.Span.File == nil || p.Span.File.Path != f.Path {
			continue
		}
		start := min(max(int(p.Span.Start), 0), len(f.Data))
		list = append(list, mark{start, min(max(int(p.Span.End), start), len(f.Data)), p})
	}
	slices.SortStableFunc(list, func(a, b mark) int { return cmp.Compare(a.start, b.start) })
	return list
}

// maxMarks is how many problems are marked on one line. All of them are told below it.
const maxMarks = 200

// A rawWriter writes the lines of a note one after another.
type rawWriter struct {
	*page
	tokens []chroma.Token // what is not yet written; the first may be the rest of one
	at     int            // where it stands
	marks  []mark         // those that begin on this line or later
	open   []mark         // those that reach into this line from an earlier one
	read   map[int]string // what each line was understood to say, by its number
}

func (w *rawWriter) line(number int, l rawLine) {
	begun := 0
	for begun < len(w.marks) && (w.marks[begun].start < l.next || l.last) {
		begun++
	}
	here := slices.Concat(w.open, w.marks[:begun])
	told := w.marks[:begun]
	w.marks = w.marks[begun:]
	w.put("<li")
	w.attr("id", LineAnchor(number))
	w.attr("class", worst(told))
	w.put("><code>")
	w.until(l.start, false)
	for _, s := range segments(l, here[:min(len(here), maxMarks)]) {
		w.segment(s)
	}
	w.put("</code>")
	if words := w.read[number]; words != "" {
		w.element("p", "read", words)
	}
	for _, m := range told {
		w.message(m)
	}
	w.put("</li>\n")
	w.open = slices.DeleteFunc(here, func(m mark) bool { return m.end <= l.next })
}

// worst returns the gravest severity of the marks as a class, "" where there are none.
func worst(marks []mark) string {
	if len(marks) == 0 {
		return ""
	}
	return slices.MinFunc(marks, func(a, b mark) int { return cmp.Compare(a.Severity, b.Severity) }).Severity.String()
}

// A rawSegment is a part of a line in which the same problems stand; empty where something is missing.
type rawSegment struct {
	start, end int
	marks      []mark
}

func segments(l rawLine, marks []mark) []rawSegment {
	within := func(at int) int { return min(max(at, l.start), l.end) }
	cuts := []int{l.start, l.end}
	for _, m := range marks {
		cuts = append(cuts, within(m.start), within(m.end))
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	var list []rawSegment
	for i, at := range cuts {
		here := rawSegment{start: at, end: at}
		for _, m := range marks {
			if m.start >= l.start && within(m.start) == at && within(m.end) == at {
				here.marks = append(here.marks, m)
			}
		}
		if here.marks != nil {
			list = append(list, here)
		}
		if i+1 == len(cuts) {
			break
		}
		s := rawSegment{start: at, end: cuts[i+1]}
		for _, m := range marks {
			if m.start <= s.start && m.end >= s.end && m.start < m.end {
				s.marks = append(s.marks, m)
			}
		}
		list = append(list, s)
	}
	return list
}

// segment writes a part of a line, in one mark for all its problems.
func (w *rawWriter) segment(s rawSegment) {
	if s.marks != nil {
		class := worst(s.marks)
		if s.start == s.end {
			class += " empty"
		}
		titles := pick.Map(s.marks, func(m mark) string { return m.Message })
		w.put("<mark")
		w.attr("class", class)
		w.attr("title", strings.Join(titles, "; "))
		w.put(">")
	}
	w.until(s.end, true)
	if s.marks != nil {
		w.put("</mark>")
	}
}

func (w *rawWriter) until(end int, shown bool) {
	class := ""
	for w.at < end && len(w.tokens) > 0 {
		t := &w.tokens[0]
		value := t.Value[:min(len(t.Value), end-w.at)]
		if shown {
			class = openClass(&w.Buffer, class, classOf(t.Type), value)
			escape(&w.Buffer, value)
		}
		w.at += len(value)
		if t.Value = t.Value[len(value):]; t.Value == "" {
			w.tokens = w.tokens[1:]
		}
	}
	openClass(&w.Buffer, class, "", "")
}

// message tells a problem below its line.
func (w *rawWriter) message(m mark) {
	w.tag("div", "problem "+m.Severity.String())
	w.put("<p><strong>")
	w.text(m.Severity.String() + ", " + m.Check)
	w.put(":</strong> ")
	w.text(m.Message)
	w.put("</p>")
	if m.Help != "" {
		w.element("p", "help", m.Help)
	}
	w.put("</div>")
}

// noteLanguage is the name under which a block of code shows lines of notes.
const noteLanguage = "guidecoat"

// tokenOf is what chroma calls the parts of a note.
var tokenOf = map[note.Sort]chroma.TokenType{
	note.KeyPart: chroma.NameTag, note.NamePart: chroma.NameLabel, note.WordPart: chroma.Keyword, note.ChoicePart: chroma.NameConstant, note.FigurePart: chroma.LiteralNumber,
	note.QuotePart: chroma.LiteralString, note.HeadingPart: chroma.GenericHeading, note.RemarkPart: chroma.Comment,
}

// typedTokens returns the tokens of a note as it was understood; joined they are the file.
func typedTokens(f *source.File) []chroma.Token {
	var list []chroma.Token
	at := int32(0)
	text := func(end int32) {
		if at < end {
			list = append(list, chroma.Token{Type: chroma.Text, Value: string(f.Data[at:end])})
		}
	}
	for _, p := range note.PartsOf(f) {
		text(p.Start)
		list, at = append(list, chroma.Token{Type: tokenOf[p.Sort], Value: p.Text()}), p.End
	}
	text(int32(len(f.Data)))
	return list
}
