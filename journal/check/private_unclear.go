package check

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"golang.org/x/text/unicode/norm"
)

var privateUnclear = &Check{
	Name: "private-unclear", Severity: problem.Warning, Privacy: true,
	Stops:   true,
	Summary: "words that ask for privacy, where they hide nothing",
	Explain: "Only the clause `; private`, a note's own `private: yes` and an HTML comment hide something; said in any other way it is shown. " +
		"Nothing is published for the public or the buyer until it is made the clause, said otherwise, or settled with `; sure`. " +
		"Words such as \"a private seller\" are not meant: what counts is `private` alone, at an end, or before words such as \"for now\".",
	Example: "---\nstage: body\nwrong|cost: 400.00 wing from Del (private for now)\nright|cost: 400.00 wing from Del; private\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			if !w.private {
				p.privateUnclear(w.note)
			}
		}
	},
}

const (
	privateLine  = "Write \"; private\" if the line is to be hidden, \"; sure\" if it may be read, or other words."
	privateOther = "Leave the words out, make the whole note private, or write \"; sure\" behind them if they may be read."
	privateProse = "Put the words into an HTML comment, make the whole note private with \"private: yes\", or say it otherwise."
	privatePath  = "Write \"private: yes\" in the note if it is to be hidden, or give the file another name."
)

func (p *Pass) privateUnclear(n *note.Note) {
	for element := range strings.SplitSeq(strings.TrimSuffix(n.File.Path, ".md"), "/") {
		if !mayAsk([]byte(element)) {
			continue
		}
		if _, _, found := askedIn(element, false); found {
			p.Report(n.File.Span(0, 0), "the file's path asks for privacy, which hides nothing", privatePath)
		}
	}
	if n.Unread || !mayAsk(n.File.Data) { // what cannot be read is an error, and stops publishing by itself
		return
	}
	hidden := p.buyer().Hidden
	shown := publishable(n, hidden)
	look := func(at source.Span, help string, prose bool) bool {
		start, end, found := askedIn(shown[at.Start:at.End], prose)
		if found {
			at = at.Part(start, end)
			p.Report(at, quote(at.Text())+" hides nothing here", help)
		}
		return found
	}
	line := func(l *note.Line) {
		help := privateOther
		if slices.ContainsFunc(l.Kind.Clauses, func(c note.Clause) bool { return c.Word == "private" }) {
			help = privateLine
		}
		if p.leftOut(l) || l.Has("private") || l.Kind.Name == nil && l.Name != "" && look(l.NameSpan(), help, false) || look(l.Words().Whole(), help, false) {
			return
		}
		for _, c := range l.Clauses {
			if c.Arg.S != "" && c.Clause.Value.Flaw == "" && look(c.Arg.Whole(), help, false) {
				return
			}
		}
	}
	for _, l := range n.Lines {
		line(l)
	}
	items := map[int]bool{}
	for _, it := range n.Items {
		if items[it.At] = true; !hidden[it] {
			line(it.Line)
		}
	}
	_ = ast.Walk(n.Doc(), func(node ast.Node, entering bool) (ast.WalkStatus, error) {
		prose := false
		switch node.Kind() {
		case ast.KindParagraph, ast.KindTextBlock:
			prose = node.Parent().Kind() != ast.KindListItem
		case ast.KindHeading, ast.KindHTMLBlock, east.KindTableCell:
		default:
			return ast.WalkContinue, nil
		}
		if lines := node.Lines(); entering && lines.Len() > 0 && !items[lines.At(0).Start] {
			look(n.File.Span(lines.At(0).Start, lines.At(lines.Len()-1).Stop), privateProse, prose)
		}
		return ast.WalkSkipChildren, nil
	})
}

// mayAsk tells whether a text may hold such words. Every byte of every note comes by here, so it is no pattern:
// of each word its rarest letter is looked for.
func mayAsk(text []byte) bool {
	for _, w := range []struct {
		word string
		rare int
	}{{"priv", 3}, {"publi", 2}, {"buyer", 2}, {"confidential", 3}} {
		for _, letter := range []byte{w.word[w.rare], w.word[w.rare] - 'a' + 'A'} {
			for from := 0; ; {
				i := bytes.IndexByte(text[from:], letter)
				if i < 0 {
					break
				}
				from += i + 1
				begin := from - 1 - w.rare
				if end := begin + len(w.word); begin >= 0 && end <= len(text) && bytes.EqualFold(text[begin:end], []byte(w.word)) {
					return true
				}
			}
		}
	}
	for i, c := range text {
		if c >= utf8.RuneSelf {
			if r, _ := utf8.DecodeRune(text[i:]); unicode.Is(disguises, r) {
				return true
			}
		}
	}
	return false
}

// disguises are letters that may stand for plain ones, and marks that may stand among them.
var disguises = &unicode.RangeTable{
	R16: []unicode.Range16{{Lo: 0xad, Hi: 0xad, Stride: 1}, {Lo: 0x17f, Hi: 0x17f, Stride: 1}, {Lo: 0x300, Hi: 0x5ff, Stride: 1}, {Lo: 0x200b, Hi: 0x200f, Stride: 1},
		{Lo: 0x2060, Hi: 0x2060, Stride: 1}, {Lo: 0xfeff, Hi: 0xfeff, Stride: 1}, {Lo: 0xff00, Hi: 0xffef, Stride: 1}},
	R32: []unicode.Range32{{Lo: 0x1d400, Hi: 0x1d7ff, Stride: 1}},
}

var addresses = regexp.MustCompile(`\]\([^)\n]*\)|\w+://[^\s)>]+`)

// publishable is a note as it is shown, each byte in its place.
func publishable(n *note.Note, hidden map[*note.Item]bool) string {
	shown := bytes.Clone(n.File.Data)
	fill := func(at source.Span, with string) {
		copy(shown[at.Start:at.End], strings.Repeat(with, int(at.End-at.Start)))
	}
	for _, at := range n.Code() {
		fill(at, "x")
	}
	for _, at := range addresses.FindAllIndex(shown, -1) {
		with := pick.Either(shown[at[0]] == ']', "]", "x")
		fill(n.File.Span(at[0], at[1]), with)
	}
	for _, it := range n.Items {
		if hidden[it] {
			fill(n.File.Span(it.At, it.End), " ")
		}
	}
	return string(shown)
}

// How words ask for privacy: an adjective ("a private seller") has its noun behind it or an article before; a request neither.

func wordSet(words string) map[string]bool {
	set := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		set[w] = true
	}
	return set
}

var (
	asking = wordSet("private priv confidential")
	// goesOn are the words behind a request. None is a noun but those for the writing itself.
	goesOn = wordSet("for please until till because since as but so thanks now ok if unless to from here again still too also only me us this that " +
		"these those it not do don't never no yet before after while when though between note notes entry info information comment remark stuff matter yes true")
	// around are the words, besides, that a request may be made of.
	around = wordSet("keep kept stay stays remain remains both quite strictly is are be must should very all line item section page everything and nb ps")
	// adjective are the words before `private` that make it say of what sort something is.
	adjective = wordSet("a an the any some my his her their our your its in semi half part non no not isn't wasn't sold bought went going buy sell " +
		"another every each other more less from by via to through with at on of or")
	// denied and its bridge stand before "public" and "buyer": "not for the public", "don't tell the buyer".
	denied     = wordSet("not non never don't dont isn't")
	bridge     = wordSet("the a any for be to yet tell show")
	publishing = wordSet("public publication publishing publish buyer buyers")
	pages      = wordSet("site page pages")
)

// A gap says what parts a word from the one before.
type gap int

const (
	joined gap = iota // a space, or one mark within: semi-private
	emphasis
	opening // a sentence or a parenthesis begins
	comma
	parted // any other mark
)

type askingWord struct {
	text       string // in small plain letters
	start, end int
	before     gap
}

// askedIn finds the first request in a text. In prose it has to begin the text or to stand alone.
func askedIn(text string, prose bool) (start, end int, found bool) {
	words := askingWords(text)
	for i, w := range words {
		from := i
		switch {
		case asking[w.text]:
			if i > 0 && w.before <= emphasis && adjective[words[i-1].text] {
				continue
			}
		case publishing[w.text], w.text == "published" && i > 0 && words[i-1].text == "be":
			for from > 0 && words[from].before == joined && (from == i || bridge[words[from].text]) {
				from--
			}
			if from == i || !denied[words[from].text] {
				continue
			}
		default:
			continue
		}
		if next := i + 1; next < len(words) && words[next].before == joined && !goesOn[words[next].text] && !asking[words[next].text] &&
			!(from < i && pages[words[next].text]) && !(i > 0 && words[i-1].text == "strictly") {
			continue
		}
		if !prose || alone(words, from, i) {
			return words[from].start, w.end, true
		}
	}
	return 0, 0, false
}

// alone tells whether a request begins a text or sentence, or has a piece of it to itself.
func alone(words []askingWord, from, to int) bool {
	isOther := func(w askingWord) bool {
		return !asking[w.text] && !goesOn[w.text] && !around[w.text] && !denied[w.text] && !bridge[w.text] && !publishing[w.text] && w.text != "published"
	}
	if !slices.ContainsFunc(words[:from], isOther) {
		return true
	}
	begin := from
	for begin > 0 && words[begin].before == joined {
		begin--
	}
	for to++; to < len(words) && words[to].before == joined; to++ {
	}
	if before := words[begin].before; (before == opening || before == emphasis) && !slices.ContainsFunc(words[begin:from], isOther) {
		return true
	}
	inList := words[begin].before == comma && to < len(words) && words[to].before == comma // quiet, private, gated
	return !inList && !slices.ContainsFunc(words[begin:to], isOther)
}

func askingWords(text string) []askingWord {
	var words []askingWord
	end := 0
	for _, at := range wordOrPart.FindAllStringIndex(text, -1) {
		w := askingWord{text: plainWord(text[at[0]:at[1]]), start: at[0], end: at[1]}
		switch between := text[end:at[0]]; {
		case len(words) == 0:
			w.before = parted
		case softGap.MatchString(between):
		case emphasisGap.MatchString(between):
			w.before = emphasis
		case strings.ContainsAny(between, "([{.!?"):
			w.before = opening
		case strings.TrimSpace(between) == ",":
			w.before = comma
		default:
			w.before = parted
		}
		words, end = append(words, w), at[1]
	}
	return words
}

var (
	wordOrPart  = regexp.MustCompile(`[\p{L}\p{N}\p{M}\p{Cf}]+(?:['’][\p{L}]+)*`)
	softGap     = regexp.MustCompile(`^(?:\p{Zs}|\t|\r?\n[ \t>]*)+$|^[-./_‐‑·]$`)
	emphasisGap = regexp.MustCompile(`^[\s*_~]+$`)
)

// plainWord takes a word without case, marks, and what cannot be seen.
func plainWord(w string) string {
	if strings.IndexFunc(w, func(r rune) bool { return r > unicode.MaxASCII }) >= 0 {
		w = strings.Map(func(r rune) rune {
			switch {
			case unicode.Is(unicode.Mn, r), unicode.Is(unicode.Cf, r):
				return -1
			case r == '’':
				return '\''
			}
			return r
		}, norm.NFKD.String(w))
		w, _ = near.Latin(w)
	}
	return strings.ToLower(w)
}
