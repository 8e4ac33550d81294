package note

import (
	"bytes"
	"strings"

	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
)

// findStrayKeys reports the lines of a paragraph that are a key of such a note with
// a list below it or its value behind it: front matter that was written below its closing fence.
func (r *bodyReader) findStrayKeys(block ast.Node) {
	if block.Parent() != r.doc {
		return
	}
	n := r.Note
	begins := true // of the paragraph, or behind another such line
	for i := range block.Lines().Len() {
		seg := block.Lines().At(i)
		start, end := trim(n.File.Data, seg.Start, seg.Stop)
		if begins = begins && r.strayLine(start, end); begins || start == end || n.File.Data[end-1] != ':' {
			continue
		}
		k := kind(r.kinds, string(n.File.Data[start:end-1]))
		_, next := cutLine(n.File.Data, start)
		if k == nil || k.Shape == One || !k.listBelow(n.File.Data[next:]) {
			continue
		}
		n.fault(source.Fault{Flaw: MisplacedFrontMatter, Span: n.File.Span(start, end), Why: "it is below the closing \"---\"",
			Help: "Move it with its list above that, or begin it with a capital if these are plain words."})
		n.Lost++
	}
}

// strayLine reports a line that is such a key with its value behind it, as the front
// matter would read it, and tells whether it is one.
func (r *bodyReader) strayLine(start, end int) bool {
	n := r.Note
	line := string(n.File.Data[start:end])
	colon := nameEnd(line)
	if colon <= 0 {
		return false
	}
	k := kind(r.kinds, line[:colon])
	if k == nil || k.Key == "date" || !k.hasValue(line[colon+1:]) {
		return false
	}
	n.fault(source.Fault{Flaw: MisplacedFrontMatter, Span: n.File.Span(start, end), Why: "it is below the closing \"---\"",
		Help: "Move it above that, or begin it with a capital if these are plain words."})
	n.Lost++
	return true
}

// listBelow tells whether the next line is an entry of the key's list. A task-list
// item is none.
func (k *Kind) listBelow(rest []byte) bool {
	line, _ := cutLine(rest, 0)
	entry := bytes.TrimSpace(line)
	if after, dash := strings.CutPrefix(string(entry), "- "); dash {
		return !strings.HasPrefix(strings.TrimLeft(after, " \t"), "[")
	}
	return k.Shape == Named && len(line) > len(bytes.TrimLeft(line, " ")) && nameEnd(string(entry)) > 0
}
