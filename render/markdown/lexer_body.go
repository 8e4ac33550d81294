package markdown

import (
	"slices"
	"strings"

	"guidecoat/journal/note"

	"github.com/alecthomas/chroma/v2"
)

// body lexes what follows the front matter.
func (x *lexer) body() {
	for x.at < len(x.text) {
		end, next := x.line(x.at)
		x.bodyLine(end)
		x.emit(chroma.Text, next)
	}
}

func (x *lexer) bodyLine(end int) {
	line := strings.TrimLeft(x.text[x.at:end], " \t")
	switch {
	case x.comment:
		x.words(end)
	case x.fence != "":
		x.inFence(line, end)
	case line == "":
		x.item = false
	case x.openFence(line, end):
		x.item = false
	case isHeading(line):
		x.item = false
		x.emit(chroma.GenericHeading, end)
	case x.taskItem(end):
	default:
		if x.marker(end) > x.at { // of another list
			x.item = false
		}
		x.words(end)
	}
}

// isHeading tells whether a line is a heading: up to six number signs and a space.
func isHeading(line string) bool {
	rest := strings.TrimLeft(line, "#")
	signs := len(line) - len(rest)
	return signs >= 1 && signs <= 6 && (rest == "" || isSpace(rest[0]))
}

// openFence lexes the line that opens a fenced block.
func (x *lexer) openFence(line string, end int) bool {
	if len(line) < 3 || line[0] != '`' && line[0] != '~' {
		return false
	}
	rest := strings.TrimLeft(line, line[:1])
	run := len(line) - len(rest)
	if run < 3 || line[0] == '`' && strings.Contains(rest, "`") {
		return false
	}
	x.fence = line[:run]
	x.spaces(end)
	x.emit(chroma.Punctuation, x.at+run)
	x.spaces(end)
	stop := x.word(x.at, end)
	x.scan = x.text[x.at:stop] == "scan"
	x.emit(chroma.Keyword, stop)
	x.spaces(end)
	if x.scan {
		x.emit(chroma.NameLabel, end)
	}
	x.emit(chroma.Text, end)
	return true
}

// inFence lexes a line of a fenced block.
func (x *lexer) inFence(line string, end int) {
	rest := strings.TrimLeft(line, x.fence[:1])
	if len(line)-len(rest) >= len(x.fence) && strings.TrimSpace(rest) == "" {
		x.fence = ""
		x.emit(chroma.Punctuation, end)
		return
	}
	if !x.scan {
		x.emit(chroma.LiteralString, end)
		return
	}
	x.spaces(end)
	stop := x.word(x.at, end)
	if code := strings.TrimRight(x.text[x.at:stop], ",:;"); note.IsCode(code) {
		x.emit(chroma.NameConstant, x.at+len(code))
	}
	x.emit(chroma.Text, end)
}

// marker returns where the marker of a list item ends: after `-`, `*`, `+` or a
// number with `.` or `)`, and a space; the place itself where there is none.
func (x *lexer) marker(end int) int {
	at := x.at
	for at < end && isSpace(x.text[at]) {
		at++
	}
	start := at
	for at < end && at-start < 9 && x.text[at] >= '0' && x.text[at] <= '9' {
		at++
	}
	signs := "-*+"
	if at > start {
		signs = ".)"
	}
	if at+1 < end && strings.IndexByte(signs, x.text[at]) >= 0 && isSpace(x.text[at+1]) {
		return at + 1
	}
	return x.at
}

// taskItem lexes a task-list item, if the line is one.
func (x *lexer) taskItem(end int) bool {
	stop := x.marker(end)
	if stop == x.at {
		return false
	}
	box := stop
	for box < end && isSpace(x.text[box]) {
		box++
	}
	if end-box < 3 || x.text[box] != '[' || x.text[box+2] != ']' || strings.IndexByte(" \txX", x.text[box+1]) < 0 {
		return false
	}
	x.spaces(end)
	x.emit(chroma.Punctuation, stop)
	x.spaces(end)
	x.emit(chroma.KeywordPseudo, box+3)
	x.spaces(end)
	x.item = true
	x.itemHead(end)
	x.words(end)
	return true
}

// itemHead lexes the kind and the id that stand before the first colon.
func (x *lexer) itemHead(end int) {
	colon := end
	if i := strings.IndexAny(x.text[x.at:end], ":;"); i >= 0 {
		colon = x.at + i
	}
	lead := strings.Fields(x.text[x.at:colon])
	if len(lead) == 0 || len(lead) > 2 {
		return
	}
	first := strings.ToLower(lead[0])
	opener := first == "again" || slices.Contains(note.Kinds, first)
	last := lead[len(lead)-1]
	id := strings.Contains(last, "-") && note.IsID(last)
	if !opener && (len(lead) > 1 || !id) || opener && len(lead) == 2 && !id || opener && len(lead) == 1 && colon == end {
		return
	}
	if opener {
		x.emit(chroma.Keyword, x.at+len(lead[0]))
		x.spaces(end)
	}
	if id {
		x.emit(chroma.NameLabel, x.at+len(last))
	}
	if x.spaces(colon); x.at == colon && colon < end && x.text[colon] == ':' {
		x.emit(chroma.Punctuation, colon+1)
	}
}

// maxTicks is the longest run of backticks that is taken for a code span.
const maxTicks = 16

// words lexes words up to end: their code and comments and, in an item, its clauses.
func (x *lexer) words(end int) {
	var unclosed [maxTicks + 1]bool // the runs of backticks known to be closed by none
	for i := x.at; i < end; {
		switch c := x.text[i]; {
		case x.comment:
			stop := end
			if k := strings.Index(x.text[i:end], "-->"); k >= 0 {
				stop = i + k + len("-->")
				x.comment = false
			}
			x.emit(chroma.Comment, stop)
			i = stop
		case c == '\\':
			i = min(i+2, end)
		case c == '<' && strings.HasPrefix(x.text[i:end], "<!--"):
			x.emit(chroma.Text, i)
			x.comment = true
		case c == '`':
			run := len(x.text[i:end]) - len(strings.TrimLeft(x.text[i:end], "`"))
			stop := i + run
			if run <= maxTicks && !unclosed[run] {
				if closed := closeSpan(x.text[:end], i, run); closed > 0 {
					x.emit(chroma.Text, i)
					x.emit(chroma.LiteralString, closed)
					stop = closed
				} else {
					unclosed[run] = true
				}
			}
			i = stop
		case c == ';' && x.item:
			x.emit(chroma.Text, i)
			x.emit(chroma.Punctuation, i+1)
			x.spaces(end)
			if clause := note.Snag.Begun(x.text[x.at:x.clauseEnd(end)]); clause != nil {
				x.clause(clause, x.clauseEnd(end))
			}
			i = x.at
		default:
			i++
		}
	}
	x.emit(chroma.Text, end)
}

// clauseEnd returns where the clause that begins at the place ends.
func (x *lexer) clauseEnd(end int) int {
	if i := strings.IndexByte(x.text[x.at:end], ';'); i >= 0 {
		return x.at + i
	}
	return end
}

// closeSpan returns where a code span ends that begins with a run of backticks, -1
// where the text has no other such run.
func closeSpan(text string, start, run int) int {
	for at := start + run; at < len(text); {
		i := strings.IndexByte(text[at:], '`')
		if i < 0 {
			break
		}
		at += i
		n := len(text[at:]) - len(strings.TrimLeft(text[at:], "`"))
		at += n
		if n == run {
			return at
		}
	}
	return -1
}
