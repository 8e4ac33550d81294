package check

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
	"guidecoat/journal/view"
)

// PrivateWords is the name of the check that finds what the public should not read.
const PrivateWords = "private-words"

var privateWords = &Check{
	Name: PrivateWords, Severity: problem.Warning, Privacy: true,
	Summary: "a plate, a full identification number or a supplier in words the public page shows",
	Explain: "The job card keeps it off the public page, but guidecoat never changes your words, and here they tell it. " +
		"Say it in other words, mark the line or note `private`, put it into an HTML comment, or allow it under `public` on the job card.",
	Example: "---\nstage: rear axle\ncost: 138.00 rear axle beam; from Tidewell Dismantlers\n---\nwrong|Drove to Tidewell Dismantlers for the beam.\nright|Drove to the coast for the beam.\n",
	Run: func(p *Pass) {
		h := p.hidden()
		if len(h.all) == 0 {
			return
		}
		seen := p.public()
		for _, w := range p.notes {
			if seen.Bodies[w.note] {
				h.report(p, w.note, seen)
			}
		}
	},
}

// report says where a note tells a secret: every line of its front matter, and a first place in its body.
func (h *hidden) report(p *Pass, n *note.Note, seen *view.Shown) {
	h.searchText(strings.TrimSuffix(n.File.Path, ".md"), func(s *secret, _, _ int) {
		p.Report(n.File.Span(0, 0), s.what+" "+quote(s.name)+" stands in the file's path, which the address of a public page shows", "Give it another name.")
	})
	for _, l := range n.Lines {
		for _, at := range seen.Lines[l] {
			said := map[*secret]bool{}
			h.searchText(at.Text(), func(s *secret, start, end int) {
				if !said[s] {
					said[s] = true
					place := at.Part(start, end)
					if l.Kind.Key != "snag" && strings.HasSuffix(at.Text()[:start], " from ") {
						p.Report(place, s.shownHere(), "Write \"; from "+s.name+"\" if it is meant as a clause, which that page does not show.")
					} else {
						s.report(p, place, nil)
					}
				}
			})
		}
	}
	places := map[*secret][]source.Span{}
	var order []*secret
	h.searchBodyOf(n, gapsIn(n, seen), func(s *secret, at source.Span) {
		if places[s] == nil {
			order = append(order, s)
		}
		places[s] = append(places[s], at)
	})
	for _, s := range order {
		s.report(p, places[s][0], places[s][1:])
	}
}

func (s *secret) shownHere() string {
	return s.what + " " + quote(s.name) + " stands in words that the public page shows"
}

func (s *secret) report(p *Pass, at source.Span, others []source.Span) {
	p.Report(at, s.shownHere()+alsoOn(at, others),
		"Use other words, or allow it under \"public\" in build.md with \""+s.setting+"\".")
}

// alsoOn names the lines of further places.
func alsoOn(first source.Span, others []source.Span) string {
	last := first.Begin().Line
	var list []string
	for _, o := range others {
		if n := o.Begin().Line; n != last {
			last, list = n, append(list, strconv.Itoa(n))
		}
	}
	switch most := 9; {
	case len(list) == 0:
		return ""
	case len(list) == 1:
		return ", also on line " + list[0]
	case len(list) > most:
		return fmt.Sprintf(", also on lines %s and %d more", strings.Join(list[:most], ", "), len(list)-most)
	}
	return ", also on lines " + strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

// A secret is something that the job card keeps off the public page.
type secret struct{ what, name, setting string }

// hidden are the secrets of a build, to be found word by word in one pass, whatever their case.
type hidden struct {
	all []*secret
	// begins holds the beginnings of all names, word by word; a whole name has its secret.
	begins map[string]*secret
	// marks are the plate and the identification number, which may be parted anywhere.
	marks []mark
	// first are the bytes that a word may begin with which begins one.
	first [256]bool
}

type mark struct {
	text   string
	secret *secret
}

// shortest is how many letters and digits make a name that can be told from an ordinary word.
const shortest = 3

func (p *Pass) hidden() *hidden {
	b, h := p.State.Build, &hidden{begins: map[string]*secret{}}
	public := b.Card.Public
	if d, ok := b.Card.Detail(journal.Registration); ok && !public.Registration {
		h.addMark(&secret{"the registration", d.Value, "registration: yes"})
	}
	if d, ok := b.Card.Detail(journal.VIN); ok && public.VIN != "full" {
		h.addMark(&secret{"the identification number", d.Value, "vin: full"})
	}
	if public.Suppliers {
		return h
	}
	for _, name := range p.from().all {
		h.addName(name)
	}
	return h
}

func (h *hidden) addMark(s *secret) {
	text := strings.Join(slices.Collect(wordsOf(s.name)), "")
	if len(text) < shortest {
		return
	}
	h.all = append(h.all, s)
	h.marks = append(h.marks, mark{text, s})
	h.mayBegin(text[0])
}

func (h *hidden) addName(name string) {
	key, letters := "", 0
	for w := range wordsOf(name) {
		if key != "" {
			if _, ok := h.begins[key]; !ok {
				h.begins[key] = nil
			}
			key += " "
		}
		key += w
		letters += len(w)
	}
	if letters < shortest || h.begins[key] != nil {
		return
	}
	s := &secret{"the supplier", name, "suppliers: yes"}
	h.all = append(h.all, s)
	h.begins[key] = s
	h.mayBegin(key[0])
}

// mayBegin notes the first byte of a name, in either case.
func (h *hidden) mayBegin(c byte) {
	h.first[c] = true
	if 'a' <= c && c <= 'z' {
		h.first[c-'a'+'A'] = true
	}
	if c >= utf8.RuneSelf {
		for c := utf8.RuneSelf; c < len(h.first); c++ {
			h.first[c] = true
		}
	}
}

func (h *hidden) searchBodyOf(n *note.Note, gaps []source.Span, found func(*secret, source.Span)) {
	at := n.BodyStart()
	for _, gap := range gaps {
		h.searchBody(n, at, int(gap.Start), found)
		at = max(at, int(gap.End))
	}
	h.searchBody(n, at, len(n.File.Data), found)
}

// gapsIn are the parts of a body that are not shown, in order.
func gapsIn(n *note.Note, seen *view.Shown) (gaps []source.Span) {
	for _, it := range n.Items {
		if seen.Hidden[it] {
			gaps = append(gaps, n.File.Span(it.At, it.End))
			continue
		}
		gaps = append(gaps, pick.Map(it.Clauses, func(c note.Found) source.Span { return c.Span })...)
	}
	slices.SortFunc(gaps, func(a, b source.Span) int { return cmp.Compare(a.Start, b.Start) })
	return gaps
}

func (h *hidden) searchBody(n *note.Note, start, end int, found func(*secret, source.Span)) {
	if start < end {
		h.searchText(string(n.File.Data[start:end]), func(s *secret, from, to int) { found(s, n.File.Span(start+from, start+to)) })
	}
}

func (h *hidden) searchText(text string, found func(s *secret, start, end int)) {
	var word []byte
	for start, end := nextWord(text, 0); start < end; start, end = nextWord(text, end) {
		if !h.first[text[start]] {
			continue
		}
		word = appendLower(word[:0], text[start:end])
		h.names(text, word, start, end, found)
		for _, m := range h.marks {
			if stop := m.at(text, word, end); stop > 0 {
				found(m.secret, start, stop)
			}
		}
	}
}

// names looks for the longest supplier's name that begins with the word.
func (h *hidden) names(text string, word []byte, start, end int, found func(s *secret, start, end int)) {
	s, ok := h.begins[string(word)]
	if !ok {
		return
	}
	var longest *secret
	stop := end
	for key := string(word); ok; {
		if s != nil {
			longest, stop = s, end
		}
		from, to := nextWord(text, end)
		if from == to || !together(text[end:from]) {
			break
		}
		key += " " + string(appendLower(nil, text[from:to]))
		end = to
		s, ok = h.begins[key]
	}
	if longest != nil {
		found(longest, start, stop)
	}
}

// at returns where the mark ends if it begins with the word, which ends at end, else 0.
func (m mark) at(text string, word []byte, end int) int {
	rest, ok := strings.CutPrefix(m.text, string(word))
	for ok && rest != "" {
		from, to := nextWord(text, end)
		if from == to || !together(text[end:from]) {
			return 0
		}
		rest, ok = strings.CutPrefix(rest, string(appendLower(nil, text[from:to])))
		end = to
	}
	if !ok {
		return 0
	}
	return end
}

// together tells whether what stands between two words lets them be read as one name.
func together(between string) bool { return len(between) <= 4 && strings.Count(between, "\n") <= 1 }

// nextWord returns the next run of letters and digits; nothing at the end of the text.
func nextWord(text string, at int) (start, end int) {
	start = pass(text, at, false)
	return start, pass(text, start, true)
}

// pass goes over what are letters and digits, or over what are none.
func pass(text string, at int, letters bool) int {
	for at < len(text) {
		is, size := false, 1
		if c := text[at]; c < utf8.RuneSelf { // nearly always
			is = asciiLetters[c]
		} else {
			is, size = runeAt(text[at:])
		}
		if is != letters {
			break
		}
		at += size
	}
	return at
}

func runeAt(text string) (is bool, size int) {
	r, size := utf8.DecodeRuneInString(text)
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r), size
}

var asciiLetters = func() (table [utf8.RuneSelf]bool) {
	for c := range table {
		table[c] = unicode.IsLetter(rune(c)) || unicode.IsDigit(rune(c))
	}
	return table
}()

func appendLower(to []byte, word string) []byte {
	for i := 0; i < len(word); i++ {
		if word[i] >= utf8.RuneSelf {
			return append(to, strings.ToLower(word[i:])...)
		}
		c := word[i]
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		to = append(to, c)
	}
	return to
}

func wordsOf(s string) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		for start, end := nextWord(s, 0); start < end; start, end = nextWord(s, end) {
			if !yield(strings.ToLower(s[start:end])) {
				return
			}
		}
	}
}
