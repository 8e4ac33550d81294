package note

import (
	"strings"

	"guidecoat/journal/near"
	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
)

// The flaws of task-list items. What an id refers to is known only to the whole
// build, so the rest of them is in package journal.
const NearKind source.Flaw = "near-kind"

// An Item is a task-list item of the body: something outstanding, or a word about it.
type Item struct {
	*Line
	At     int // its place in the file, as [ItemAt] gives it
	End    int // where all that hangs on it ends
	Ticked bool
	Again  bool
	Colon  bool   // whether there is a colon after Lead
	Stray  bool   // a kind stands first, but what follows is no id, so the item reads as plain words
	BareID bool   // a lone id without a colon: meant as one only if somebody opened it
	Kind   string // a word of Kinds; "" where none was written
	ID     string // "" where none was written
	IDSpan source.Span

	lead reach
}

// Lead is what stands before the first colon, or all of a head without one.
func (it *Item) Lead() Text { return it.part(it.lead) }

// TakeAsWords makes plain words of an id that was none.
func (it *Item) TakeAsWords() { it.ID, it.words = "", it.lead }

// readItem reads the item whose text is t.
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

// readItemClause reads a clause of an item. The first one, behind an id or a kind
// alone, may be the words that a colon was meant for.
func (n *Note) readItemClause(it *Item, t Text) {
	faults := len(n.Faults)
	n.readClause(it.Line, context{home: n.home}, t)
	lone := (it.ID != "" || contains(Kinds, strings.ToLower(it.Lead().S))) && !it.Colon && len(it.Clauses) == 0
	if lone && len(n.Faults) > faults && n.Faults[faults].Flaw == UnknownClause {
		n.Faults[faults].Help = "Write \"" + it.Lead().S + ": \" if these are its words."
	}
}

// readItemHead decides by what stands before the first colon.
func (n *Note) readItemHead(it *Item) {
	head := it.part(it.head)
	at, end := int(it.head.start), int(it.head.end)
	colon := strings.IndexByte(head.S, ':')
	if it.Colon = colon >= 0; it.Colon {
		colon += at
	} else {
		colon = end
	}
	it.lead, it.words = reachOf(trim(it.Text.S, at, colon)), it.head
	lead := it.Lead()
	words := strings.Fields(lead.S)
	if len(words) == 0 {
		return
	}
	opener := strings.ToLower(words[0])
	first, last := strings.Index(lead.S, words[0]), words[len(words)-1]
	lastAt := strings.LastIndex(lead.S, last)
	id := ""
	if len(words) == 2 {
		if latin, _ := near.Latin(strings.ToLower(words[1])); isSnagID(latin) {
			id = latin
		}
	}
	if like := nearKind(opener, len(words), id); it.Colon && like != "" {
		n.lineFault(it.Line, source.Fault{Flaw: NearKind, Span: lead.Span(first, first+len(words[0])), Word: words[0], Near: []string{like}})
		opener = like // what is said of the id further on still makes sense
	}
	isKind := contains(Kinds, opener)
	switch {
	case len(words) == 1 && isKind && it.Colon:
		it.Kind = opener
	case len(words) == 1 && isSnagID(words[0]):
		it.ID, it.IDSpan, it.BareID = words[0], lead.Span(lastAt, lastAt+len(last)), !it.Colon
	case id != "" && (isKind || opener == "again"):
		it.ID, it.IDSpan = id, lead.Span(lastAt, lastAt+len(last))
		if it.Again = opener == "again"; isKind {
			it.Kind = opener
		}
		if words[1] != id {
			n.badItemID(it, words[1])
		}
	default:
		it.Stray = isKind && (len(words) > 1 || !it.Colon)
		return
	}
	it.words = reachOf(trim(it.Text.S, min(colon+1, end), end))
}

// badItemID reports an id that is written otherwise than it must be.
func (n *Note) badItemID(it *Item, word string) {
	bad := &source.Malformed{Why: "an id is lower-case words joined by hyphens", Help: "Write \"" + it.ID + "\"."}
	if _, first := near.Latin(word); first != 0 {
		bad = disguised(word, it.ID, first)
	}
	n.lineFault(it.Line, source.Fault{Flaw: BadID, Span: it.IDSpan, Word: word, Why: bad.Why, Help: bad.Sentence()})
}

// everyday are words that are near a kind, and that people mean as they write them.
var everyday = []string{"check", "checks", "respect", "joy", "gain", "hob", "knob", "rob", "jog", "jab", "mob", "fob"}

// nearKind returns the kind, or `again`, that the first of one or two words was
// meant to be; "" where it is one, or an ordinary word. Before a second word it
// must be an id that follows.
func nearKind(opener string, words int, id string) string {
	if contains(Kinds, opener) || opener == "again" || contains(everyday, opener) {
		return ""
	}
	bare := strings.Trim(opener, "*_~`\"'") // of emphasis, code and quotes
	switch {
	case words != 1 && id == "":
	case bare != opener && contains(Kinds, bare):
		return bare
	case words == 1 && !isSnagID(opener):
		return near.Nearest(opener, Kinds)
	case id != "":
		if like := near.Nearest(opener, append([]string{"again"}, Kinds...)); like != "" {
			return like
		}
		return shortened(strings.TrimSuffix(opener, "."))
	}
	return ""
}

// shortened returns the kind that a word is short for, "" where it is for none:
// its first letters, with all its vowels or without any.
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

func contains(list []string, word string) bool {
	for _, w := range list {
		if w == word {
			return true
		}
	}
	return false
}

// itemText returns the text after the checkbox of a task-list item, joined over
// its lines, and the place of the item; ok is false where the node is no checkbox of one.
func (n *Note) itemText(box *east.TaskCheckBox) (t Text, at int, ok bool) {
	parent := box.Parent()
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
			start, end = trim(n.File.Data, start+len("[ ]"), end)
		} else if b.Len() > 0 {
			list = append(list, piece{b.Len(), seg.Start - 1})
			b.WriteByte(' ')
		}
		list = append(list, piece{b.Len(), start})
		b.Write(n.File.Data[start:end])
	}
	return joined(n.File, b.String(), list), ItemAt(item), true
}
