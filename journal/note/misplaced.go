package note

import (
	"bytes"
	"regexp"
	"strings"

	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
)

// MisplacedFrontMatter does not begin as it must. Read as words, its costs would be lost and private things shown.
const MisplacedFrontMatter source.Flaw = "misplaced-front-matter"

const beginning = 30

// findMisplaced reports front matter with another fence than `---`, with none, or below something else.
func findMisplaced(n *Note) {
	above := ""
	at := 0
	for range beginning {
		if at >= len(n.File.Data) {
			return
		}
		line, next := cutLine(n.File.Data, at)
		s := string(bytes.TrimSpace(line))
		switch {
		case s == "":
			if typed := n.File.Line(n.File.Position(at).Line); strings.TrimSpace(typed) != "" {
				above = "words" // a comment
			} else if above == "" {
				above = "empty lines"
			}
		case strings.HasPrefix(s, "```") || strings.HasPrefix(s, "~~~"):
			if above != "words" && likeFront(n, next, false) {
				reportMisplaced(n, at, next, wrongBegin(line, above))
			}
			return // below words an example of front matter
		case isRule(s), at == 0 && strings.HasPrefix(s, "---"):
			if likeFront(n, next, above == "words") {
				reportMisplaced(n, at, next, wrongBegin(line, above))
				return
			}
			above = "words"
		case nameEnd(s) > 0 && likeFront(n, at, above == "words"):
			reportMisplaced(n, at, at, source.Fault{Why: "no \"---\" opens it",
				Help: "Write \"---\" alone on the first line of the note, these lines below it, and \"---\" again."})
			return
		default:
			above = "words"
		}
		at = next
	}
}

// wrongBegin says why a rule does not open the front matter that follows it.
func wrongBegin(line []byte, above string) source.Fault {
	switch {
	case !isFence(line):
		return source.Fault{Why: "\"" + strings.TrimRight(string(line), " \t\r") + "\" does not open it", Help: "Write \"---\", three hyphens alone on the first line, and the same below it."}
	case above == "words":
		return source.Fault{Why: "words stand above it", Help: "Move them below its closing \"---\", so that the opening one is the first line."}
	}
	return source.Fault{Why: "empty lines stand above it", Help: "Take them out, so that \"---\" is the first line."}
}

// reportMisplaced takes the note as one that cannot be read, with the keys from start on.
func reportMisplaced(n *Note, at, start int, f source.Fault) {
	keysFrom(n, start)
	line, _ := cutLine(n.File.Data, at)
	from, to := trim(line, 0, len(line))
	f.Flaw, f.Span = MisplacedFrontMatter, n.File.Span(at+from, at+to)
	n.Unread, n.Lost, n.Faults = true, 1, []source.Fault{f}
}

// likeFront tells whether lines look like front matter. Below words more is asked, for these may be words as well.
func likeFront(n *Note, at int, belowWords bool) bool {
	known := map[string]bool{}
	list := "" // the key that may have a list below it
	for at < len(n.File.Data) {
		line, next := cutLine(n.File.Data, at)
		at = next
		s := string(bytes.TrimRight(line, " \t\r"))
		switch colon := nameEnd(s); {
		case isFence(line), !belowWords && isRule(strings.TrimSpace(s)):
			return len(known) > 0
		case s == "" || s[0] == '#':
		case s[0] == ' ' || s[0] == '\t' || strings.HasPrefix(s, "- "):
			if list != "" {
				return true
			}
		case colon <= 0:
			return false
		default:
			key := s[:colon]
			if !belowWords {
				key = strings.ToLower(key)
			}
			k := knownKeys[key]
			if list = ""; k != nil {
				known[key] = true
				if colon+1 == len(s) {
					list = key
				}
			}
			if len(known) > 1 || !belowWords && k != nil && k.hasValue(s[colon+1:]) {
				return true
			}
		}
	}
	return false
}

// hasValue tells whether a value can be read as that of the key.
func (k *Kind) hasValue(s string) bool {
	start, end := unquote(s, 0, len(s))
	if k.Head == nil || start == end {
		return false
	}
	_, _, bad := k.Head.Read(context{}, s[start:end])
	return bad == nil
}

// knownKeys are the keys of every sort of file.
var knownKeys = func() map[string]*Kind {
	keys := map[string]*Kind{}
	for _, kinds := range [][]*Kind{Session, Page, Card, Garage} {
		for _, k := range kinds {
			keys[k.Key] = k
		}
	}
	return keys
}()

// isRule tells whether a line is two or more of one mark. Some editors make one dash of several hyphens.
func isRule(s string) bool {
	s = joinedDashes.Replace(strings.ReplaceAll(s, " ", ""))
	return len(s) >= 2 && strings.IndexByte("-*_=+", s[0]) >= 0 && strings.Trim(s, s[:1]) == ""
}

var joinedDashes = strings.NewReplacer("‐", "-", "‑", "-", "‒", "-", "−", "-", "–", "--", "—", "---", "―", "---")

// NearItem was meant as a task-list item but is none in Markdown, and would be forgotten.
const NearItem source.Flaw = "near-item"

// nearItem matches the beginning of such a line. A bracket or colon behind the box makes it a link.
var nearItem = regexp.MustCompile(`^(?:(?:[-*+]|[–—•·‣▪])[\s\p{Z}\p{Cf}]*)?(?:TODO\b|DONE\b|todo |\[[ \t]*(?:[xXvVoO]|(?i:done|ok)|[^\pL\pN\s\[\]^\\])?\x{FE0F}?[ \t]*\](?:$|[^\[(:])|[☐☑☒✅])`)

// Round or emphasised boxes count at the beginning of an item alone, items in code only in indented code.
var (
	otherBox  = regexp.MustCompile(`^(?:[({][ \t]*[xX✓✔]?[ \t]*[)}][ \t]|\\\[[ \t]*[xX]?[ \t]*\\?\]|(?:[*_]{1,3}|~~)\[[ \t]*[xX]?[ \t]*\](?:$|[^\[(:]))`)
	wholeItem = regexp.MustCompile(`^[-*+][ \t]+\[[ xX]\][ \t]`)
)

// findNearItems reports the lines of a paragraph, or of an item's words, that are nearly items.
func findNearItems(n *Note, block ast.Node) {
	_, isItem := block.FirstChild().(*east.TaskCheckBox)
	lines := block.Lines()
	_, inItem := block.Parent().(*ast.ListItem)
	_, isCode := block.(*ast.CodeBlock)
	for i := range lines.Len() {
		if i == 0 && isItem {
			continue
		}
		seg := lines.At(i)
		start, end := trim(n.File.Data, seg.Start, seg.Stop)
		if start == end {
			continue
		}
		text := n.File.Data[start:end]
		if inItem && i == 0 && !isCode && isSnag(n, start, end) {
			n.lose(source.Fault{Flaw: NearItem, Span: n.File.Span(start, end), Word: string(text), Help: "Write \"[ ] \" before it, or \"[x] \" if it is done."})
			continue
		}
		if !beginsNearItem[text[0]] {
			continue
		}
		if isCode && wholeItem.Match(text) || !isCode && nearItem.Match(text) || inItem && i == 0 && otherBox.Match(text) {
			n.lose(source.Fault{Flaw: NearItem, Span: n.File.Span(start, end), Word: string(text)})
		}
	}
}

// unboxed matches what begins with the id of a snag and ends with a clause.
var unboxed = regexp.MustCompile(`^[a-z][a-z0-9]*(?:-[a-z0-9]+)+: .*;`)

// isSnag tells whether a list item without a box has an id and a clause, as only a snag has.
func isSnag(n *Note, start, end int) bool {
	if !unboxed.Match(n.File.Data[start:end]) || n.Field("page") != nil { // a page has no snags
		return false
	}
	t := newText(n.File, start, end)
	from, to := trim(t.S, strings.LastIndexByte(t.S, ';')+1, len(t.S))
	return from < to && n.ClauseIn(newLine(Snag, t), t, from, to) != nil
}

// beginsNearItem are the first bytes of these; 0xC2 and 0xE2 are those of points, long dashes and drawn boxes.
var beginsNearItem = [256]bool{'-': true, '*': true, '+': true, '[': true, '(': true, '_': true, '~': true, '{': true, '\\': true, 'T': true, 'D': true, 't': true, 0xC2: true, 0xE2: true}

// findStrayKeys reports front matter that was written below its closing fence.
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
		n.lose(source.Fault{Flaw: MisplacedFrontMatter, Span: n.File.Span(start, end), Why: "it is below the closing \"---\"",
			Help: "Move it with its list above that, or begin it with a capital if these are plain words."})
	}
}

// strayLine reports a line that is a key with its value behind it, and tells whether it is one.
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
	n.lose(source.Fault{Flaw: MisplacedFrontMatter, Span: n.File.Span(start, end), Why: "it is below the closing \"---\"",
		Help: "Move it above that, or begin it with a capital if these are plain words."})
	return true
}

// listBelow tells whether the next line is an entry of the key's list, and no task-list item.
func (k *Kind) listBelow(rest []byte) bool {
	line, _ := cutLine(rest, 0)
	entry := bytes.TrimSpace(line)
	if after, dash := strings.CutPrefix(string(entry), "- "); dash {
		return !strings.HasPrefix(strings.TrimLeft(after, " \t"), "[")
	}
	return k.Shape == Named && len(line) > len(bytes.TrimLeft(line, " ")) && nameEnd(string(entry)) > 0
}
