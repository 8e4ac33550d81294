package note

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidecoat/journal/near"
	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	gtext "github.com/yuin/goldmark/text"
)

// boxParser finds the box of a task-list item, in all the ways in which people type one.
type boxParser struct{}

func (boxParser) Trigger() []byte { return []byte{'['} }

func (boxParser) Parse(parent ast.Node, block gtext.Reader, _ parser.Context) ast.Node {
	item, ok := parent.Parent().(*ast.ListItem)
	if !ok || item.FirstChild() != parent || parent.HasChildren() {
		return nil
	}
	line, _ := block.PeekLine()
	ticked, width := box(line)
	if width == 0 {
		return nil
	}
	block.Advance(width)
	return east.NewTaskCheckBox(ticked)
}

// box reads the box at the beginning of a line; its width is 0 where there is none. With a parenthesis behind it is a link.
func box(line []byte) (ticked bool, width int) {
	if len(line) == 0 || line[0] != '[' {
		return false, 0
	}
	at := 1 + blank(line[1:])
	if at < len(line) && (line[at] == 'x' || line[at] == 'X') {
		ticked = true
		at++
		at += blank(line[at:])
	}
	if at >= len(line) || line[at] != ']' || at+1 < len(line) && line[at+1] == '(' {
		return false, 0
	}
	return ticked, at + 1 + blank(line[at+1:])
}

// blank counts the bytes of spaces and of characters without width, up to a line's end.
func blank(line []byte) (width int) {
	for width < len(line) {
		r, size := utf8.DecodeRune(line[width:])
		if r == '\n' || !unicode.IsSpace(r) && !unicode.Is(unicode.Cf, r) {
			break
		}
		width += size
	}
	return width
}

// NearKind is the flaw of a word that is nearly a kind; more about items is known only to the whole build.
const NearKind source.Flaw = "near-kind"

// An Item is a task-list item of the body: something outstanding, or a word about it.
type Item struct {
	*Line
	At     int // its place in the file, as [ItemAt] gives it
	End    int // where all that hangs on it ends
	Ticked bool
	Again  bool
	Colon  bool   // whether there is a colon after Lead
	BareID bool   // a lone id without a colon: meant as one only if somebody opened it
	Kind   string // a word of Kinds; "" where none was written
	ID     string // "" where none was written
	IDSpan source.Span

	lead reach
}

// Lead is what stands before the first colon, or all of a head without one.
func (it *Item) Lead() Text { return it.part(it.lead) }

// AsID reads what stands before the colon, or all words, as an id and the words behind it.
func (it *Item) AsID() (id, words Text) {
	end := int(it.head.end)
	return it.Lead(), it.part(reachOf(trim(it.Text.S, min(int(it.lead.end)+1, end), end)))
}

func (n *Note) readItem(t Text, at int, ticked bool) *Item {
	it := &Item{Line: newLine(Snag, t), At: at, Ticked: ticked}
	if n.tooManyClauses(it.Line) {
		return it
	}
	it.expectClauses()
	first := true
	for p := range pieces(t.S, true) {
		start, end := trim(t.S, p[0], p[1])
		if first {
			it.head = reachOf(start, end)
			n.readItemHead(it)
		} else if clause := t.Slice(start, end); clause.S != "" {
			n.readItemClause(it, clause)
		}
		first = false
	}
	return it
}

// readItemClause reads a clause of an item. The first, behind an id or kind alone, may be its words.
func (n *Note) readItemClause(it *Item, t Text) {
	faults := len(n.Faults)
	n.readClause(it.Line, n.context(), t)
	lone := (it.ID != "" || it.Kind != "") && !it.Colon && it.Words().S == "" && len(it.Clauses) == 0
	if lone && len(n.Faults) > faults && n.Faults[faults].Flaw == UnknownClause {
		n.Faults[faults].Help = "Write \"" + it.Lead().S + ": \" if these are its words."
	}
}

func badItemID(n *Note, it *Item, word string) {
	bad := &source.Malformed{Why: "an id is lower-case words joined by hyphens", Help: "Write \"" + it.ID + "\".", Instead: it.ID}
	if _, first := near.Latin(word); first != 0 {
		bad = disguised(word, it.ID, first)
	}
	n.lineFault(it.Line, source.Fault{Flaw: BadID, Span: it.IDSpan, Word: word, Why: bad.Why, Help: bad.Sentence(), Fix: instead(it.IDSpan, bad.Instead)})
}

// everyday are words that are near a kind, and that people mean as they write them.
var everyday = []string{"check", "checks", "respect", "joy", "gain", "hob", "knob", "rob", "jog", "jab", "mob", "fob"}

// nearKind returns the kind, or `again`, that a word before the colon was meant to be, or "".
func nearKind(word string, besideID bool) string {
	if slices.Contains(everyday, word) {
		return ""
	}
	if bare := strings.Trim(word, marksOf); bare != word && kindOf(bare) != "" { // emphasis that begins or ends elsewhere
		return kindOf(bare)
	}
	if !besideID {
		return near.Nearest(word, Kinds)
	}
	if like := near.Nearest(word, append([]string{again}, Kinds...)); like != "" {
		return like
	}
	return shortened(strings.TrimSuffix(word, "."))
}

// shortened returns the kind whose first letters a word has, with or without the vowels, or "".
func shortened(word string) string {
	if len(word) < 3 {
		return ""
	}
	for _, kind := range Kinds {
		if strings.HasPrefix(kind, word) || strings.HasPrefix(withoutVowels.Replace(kind), word) {
			return kind
		}
	}
	return ""
}

var withoutVowels = strings.NewReplacer("a", "", "e", "", "i", "", "o", "", "u", "")

// itemText returns the text after the checkbox, joined over its lines; ok is false where it begins no item.
func itemText(n *Note, mark *east.TaskCheckBox) (t Text, at int, ok bool) {
	parent := mark.Parent()
	if parent == nil {
		return t, 0, false
	}
	item, ok := parent.Parent().(*ast.ListItem)
	if !ok {
		return t, 0, false
	}
	var b strings.Builder
	var list []piece
	lines := parent.Lines()
	for i := range lines.Len() {
		seg := lines.At(i)
		start, end := trim(n.File.Data, seg.Start, seg.Stop)
		if i == 0 {
			_, width := box(n.File.Data[start:end])
			start, end = trim(n.File.Data, start+width, end)
		} else if b.Len() > 0 {
			list = append(list, piece{b.Len(), seg.Start - 1})
			b.WriteByte(' ')
		}
		list = append(list, piece{b.Len(), start})
		b.Write(n.File.Data[start:end])
	}
	return joined(n.File, b.String(), list), ItemAt(item), true
}
