package check

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"guidecoat/journal/near"

	"golang.org/x/text/unicode/norm"
)

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
