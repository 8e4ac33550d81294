package render

import (
	"fmt"
	"html"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
)

// What notes are made of. Each ~ becomes a word of its own that must be shown, and in
// most places a comment may stand, with words that must not. Where code is, between
// two ¦, comments are text; where ¶ stands, words are always shown to everybody.
var (
	commentedLines = []string{
		"title: ~ ~", "stage: rear ~", "time: 3h40 ~ ~", "odometer: 1234 mi", "time:\n  - 2h ~; stage ~\n  - 1h ~; private", "sold: 900 ~; to ~",
		"cost:\n  - 12.00 ~ ~; from ~; for rear-beam; receipt ~.pdf\n  - 9.00 ~; stage rear axle\n  - 9 ~; privte", "credit: 3.00 ~; from ~", "cost: 5.00 ¦`<!-- ~ -->`¦ ~",
		"parts:\n  rear-beam: needed ~; number ~; donor ~; price 20.00; system brakes\n  arch-seal: fitted ~ ~", "checks:\n  leak-check: passed ~ ~; by ~\n  wheel-retorque: failed ~",
		"readings:\n  disc-left: 9.1 mm ~; min 9\n  gap: 3 mm ~", "remaining:\n  rear axle: 1 2 3 ~", "~: ~", "private: ~", "# ~",
	}
	commentedBlocks = []string{
		"# ~ ~", "## ~ *~*", "~ ~ ¶ ~", "**~** _~_ ~~~~~ 5 < 6 & ¶", "[~](https://example.org/~ \"~ ~\") ¶", "![~ ~](photos/a.jpg \"~ ~\")", "![~](photos/a.jpg)\n![~](none-~.jpg '~')", "[~][r~]\n\n[r~]: photos/a.jpg \"~\"",
		"- ~\n- ~ ¶\n  - ~\n\n  ~", "> ~\n> ~ ¶\n>\n> - ~", "1. ~\n2. ~", "|~|~|\n|-|-|\n|~|¶|", "¶\n====", "~\n~\n~", "***",
		"- [ ] job zq~: ~ ~; minor; due 2026-05-01; photo photos/a.jpg", "- [ ] temporary hose-clip: ~; major; waits for rear-beam\n- [x] hose-clip: ~", "- [ ] ~ ~\n  ~; disclose", "- [ ] job plate: ~; private\n\n  ~", "- [x] inspect ~: ~", "- [ ] job x: ~; mayor",
		"¦```scan engine\nP0420 ~\nC0035 <!-- ~ -->\n```¦", "¦```html\n<!-- ~ -->\n```¦", "¦~~~\n<!-- ~\n~~~¦", "- ~\n\n¦  ```\n  <!-- ~ -->\n  ```¦\n- ¶", "> ~\n>\n¦> ```\n> <!-- ~ -->\n> ```¦",
		"~\n\n¦    <!-- ~ -->\n    ~\n\n¦¶", "~ ¦`<!-- ~ -->`¦ ~ ¶", "¶ ¦``<!-- ~ ` -->``¦", "- [ ] job code: ¦`<!-- ~ -->`¦ ~", "~ \\<!-- ~ --> ¶", "<b>~</b> ~", "<div>\n~\n</div>", "<https://example.org/~>", "~ &amp; ~ &lt;!-- ~",
	}
	// What comments hold; ~ is a word that no file may tell.
	commentTexts = []string{
		"~", " ~ ", " ~ ~ ", "-~", "", "~; private", " `~ ", "``` ~", "<!-- ~", "![~](photos/a.jpg)", "[~](~.md \"~\")", "<b>~</b>", "~\\", "\\~`", "~ -- >", "--~", "~: ~", "~~~~~", " - [ ] job ~: ~",
	}
	longComments = []string{
		"~\n~", "\n~\n", "\n\n# ~\n\n~\n", "~\n\n- [ ] job ~: ~; major\n\n", "\n```\n~\n", "\n\n~~~\n~", "\n---\ntitle: ~\n---\n", "~\n\n    ~\n\n", "`\n\n~`", "\n> ~\n> ", "\r\n~\r\n\r\n", "\n\n```scan engine\nP0420 ~\n```\n", "\n|~|\n|-|\n",
		"\n</div>\n\n~", "\n\n[r1]: ~.jpg \"~\"\n", "\n\n***\n", "~\n===\n\n",
	}
)

// A commentedNote makes notes of them at random.
type commentedNote struct {
	*rand.Rand
	words  int
	shown  []string // outside of comments
	always []string // which every audience sees
}

func (c *commentedNote) one(list []string) string { return list[c.IntN(len(list))] }

func (c *commentedNote) fill(text, prefix string, to *[]string) string {
	for strings.Contains(text, "~") && !strings.HasPrefix(strings.TrimLeft(text, "\n"), "~~~\n") {
		text = strings.Replace(text, "~", c.word(prefix, to), 1)
	}
	return text
}

func (c *commentedNote) word(prefix string, to *[]string) string {
	c.words++
	word := fmt.Sprintf("%s%dq", prefix, c.words)
	if to != nil {
		*to = append(*to, word)
	}
	return word
}

func (c *commentedNote) comment(long bool) string {
	text := c.one(commentTexts)
	if long && c.IntN(2) == 0 {
		text = c.one(longComments)
	}
	text = strings.ReplaceAll(text, "~~~", "\x00")
	text = strings.ReplaceAll(c.fill(text, "zqsecret", nil), "\x00", "~~~")
	if strings.HasPrefix(text, ">") || strings.HasPrefix(text, "->") {
		text = " " + text
	}
	return "<!--" + text + "-->"
}

var wordOfOurs = regexp.MustCompile(`zq[a-z]+\d+q`)

// text fills a piece in, with comments at random places outside of code.
func (c *commentedNote) text(piece string, long bool) string {
	var b strings.Builder
	for i, part := range strings.Split(piece, "¦") {
		part = strings.NewReplacer("~~~\n", "\x00\n", "\n~~~", "\n\x00", "~~~~~", "\x01~\x01").Replace(part)
		part = strings.NewReplacer("\x00", "~~~", "\x01", "~~").Replace(c.fill(part, "zqshown", &c.shown))
		for strings.Contains(part, "¶") {
			part = strings.Replace(part, "¶", c.word("zqalways", &c.always), 1)
		}
		if i%2 == 0 && !strings.Contains(part, "\\<!--") {
			for range c.IntN(3) {
				part = c.insert(part, long)
			}
		}
		b.WriteString(part)
	}
	return b.String()
}

// insert puts a comment anywhere but into a word of ours and another comment. Not before
// a line's first words either, as an indented comment may be code.
func (c *commentedNote) insert(text string, long bool) string {
	at := c.IntN(len(text) + 1)
	for _, w := range append(wordOfOurs.FindAllStringIndex(text, -1), comments.FindAllStringIndex(text, -1)...) {
		if w[0] < at && at < w[1] {
			at = w[1]
		}
	}
	if at > 0 && (text[at-1] == '\\' || text[at-1] == '&') {
		at = len(text)
	}
	return text[:at] + c.comment(long) + text[at:]
}

var comments = regexp.MustCompile(`(?s)<!--.*?-->`)

func (c *commentedNote) note(first string) string {
	var b strings.Builder
	b.WriteString("---\n" + first)
	lines := c.Perm(len(commentedLines))[:c.IntN(5)]
	for _, i := range lines {
		b.WriteString(c.text(commentedLines[i], false))
		if c.IntN(8) == 0 && !strings.HasSuffix(commentedLines[i], "¦ ~") {
			b.WriteString("<!-- " + c.word("zqsecret", nil))
		}
		b.WriteString("\n")
	}
	b.WriteString("---\n")
	for range c.IntN(6) {
		b.WriteString(c.text(c.one(commentedBlocks), true) + "\n\n")
	}
	b.WriteString(c.word("zqalways", &c.always) + "\n")
	if c.IntN(3) == 0 {
		b.WriteString("<!-- " + c.one([]string{"", "\n\n", "`\n\n```\n", "- [ ] job a: "}) + c.word("zqsecret", nil))
	}
	return b.String()
}

// hidesComments publishes a random build for everybody, and looks for what is in its
// comments, and for what is not.
func hidesComments(t *testing.T, seed uint64) {
	c := &commentedNote{Rand: rand.New(rand.NewPCG(seed, 7))}
	card := "---\nbuild: Halden " + c.text("~", false) + "\ncurrency: GBP\nvehicle:\n  make: " + c.text("~ ~", false) + "\nstages:\n  rear axle: " + c.text("~; budget 1 2 3", false) +
		"\npublic:\n  money: lines\n  suppliers: yes\n---\n" + c.text(c.one(commentedBlocks), true) + "\n\n" + c.word("zqalways", &c.always) + "\n"
	page := c.note("page: A page " + c.text("~", false) + "\n")
	c.shown = nil // only sessions are shown as they were typed, whole
	texts := map[string]string{"build.md": card, "2026-04-11.md": c.note(""), "2026-04-12.md": c.note("stage: rear axle\n"), "page.md": page}
	fsys := fstest.MapFS{"photos/a.jpg": {Data: tellingPicture(true, 1)}}
	for name, text := range texts {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	st := state.At(b, 0, today)
	fail := func(where, format string, args ...any) {
		t.Errorf("%s %s; seed %d", where, fmt.Sprintf(format, args...), seed)
		for name, text := range texts {
			t.Logf("%s\n%s\n%q", name, text, text)
		}
		t.FailNow()
	}
	for _, p := range check.Run(st, problem.Information) {
		if text := p.Message + p.Help; strings.Contains(text, "zqsecret") {
			fail(p.Check, "says %q", text)
		}
	}
	for _, to := range view.Audiences() {
		var all strings.Builder
		for _, f := range siteIn(t, theme(t), fsys, b, view.Of(st, to)) {
			text := f.Path + string(f.Data)
			if at := strings.Index(text, "zqsecret"); at >= 0 {
				fail(f.Path, "tells the %s of a comment: …%s", to, text[max(0, at-100):min(len(text), at+50)])
			}
			all.WriteString(text)
		}
		text := html.UnescapeString(all.String())
		words := c.always
		if to == view.ForWorkshop {
			words = append(words, c.shown...)
		}
		for _, word := range words {
			if !strings.Contains(text, word) {
				fail(string(to), "does not see %q", word)
			}
		}
	}
}

func TestCommentsAreHidden(t *testing.T) {
	seed, limit := uint64(0), 2*time.Second
	if os.Getenv("GUIDECOAT_LONG") != "" {
		seed, limit = rand.Uint64(), 5*time.Minute
	}
	builds := 0
	for begin := time.Now(); time.Since(begin) < limit; builds++ {
		hidesComments(t, seed+uint64(builds))
	}
	t.Log(builds, "builds")
}

// FuzzComments is that test without an end.
func FuzzComments(f *testing.F) {
	f.Add(uint64(1 << 40))
	f.Fuzz(hidesComments)
}
