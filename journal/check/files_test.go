package check

import (
	"slices"
	"strings"
	"testing"
)

// problemsOf lists the messages and help of one check.
func problemsOf(t *testing.T, name, build string) []string {
	t.Helper()
	list := []string{}
	for _, p := range proofread(t, folder(build)) {
		if p.Check == name {
			list = append(list, strings.TrimSpace(p.Message+" | "+p.Help))
		}
	}
	return list
}

func TestMissingFiles(t *testing.T) {
	const rest = "-- photos/beam cracked.jpg --\n-- notes/near.jpg --\n-- 2026-04-12.md --\n-- bills/20411.pdf --\n-- .hidden/x.jpg --\n"
	for text, want := range map[string]string{
		// there, from the note's folder or the build's
		"![a](near.jpg)": "", "[a](../photos/beam%20cracked.jpg)": "", "![a](photos/beam%20cracked.jpg)": "",
		"![a](<photos/beam cracked.jpg>)": "", "[a](../2026-04-12.md#below)": "", "[a](near.jpg?x=1)": "",
		"[a](../photos)": "", "[a](.)": "", "[a](#here)": "", "[a](https://example.org/a.jpg)": "",
		"[a](mailto:me@example.org)": "", "[a](//example.org/a.jpg)": "", "`![a](gone.jpg)`": "",
		"- [ ] paint it; photo near.jpg": "", "- [ ] paint it; photo photos/beam cracked.jpg": "",
		"---\nstage: body\ncost: 1.00 a; receipt 20411\n---": "", "---\nstage: body\ncost: 1.00 a; receipt bills/20411.pdf\n---": "",
		// not there
		"![a](gone.jpg)":                 `no file called "gone.jpg" | Paths go from the note's folder, or else from the build's.`,
		"![a](naer.jpg)":                 `no file called "naer.jpg" | Nearest: "near.jpg". Paths go from the note's folder, or else from the build's.`,
		"![a](Near.JPG)":                 `no file called "Near.JPG" | Nearest: "near.jpg". Paths go from the note's folder, or else from the build's.`,
		"![a](photo/beam%20cracked.jpg)": `no file called "photo/beam cracked.jpg" | Nearest: "../photos/beam cracked.jpg". Paths go from the note's folder, or else from the build's.`,
		"[a](bills/20441.pdf)":           `no file called "bills/20441.pdf" | Paths go from the note's folder, or else from the build's.`,
		"![a](../.hidden/x.jpg)":         `no file called "../.hidden/x.jpg" | Paths go from the note's folder, or else from the build's.`,
		"- [ ] paint it; photo naer.jpg": `no file called "naer.jpg" | Nearest: "near.jpg". Paths go from the note's folder, or else from the build's.`,
		"---\nstage: body\ncost: 1.00 a; receipt bills/20412.PDF\n---": `no file called "bills/20412.PDF" | Paths go from the note's folder, or else from the build's.`,
		"---\nchecks:\n  alignment: passed; receipt a.jpg\n---":        `no file called "a.jpg" | Paths go from the note's folder, or else from the build's.`,
	} {
		got := problemsOf(t, "missing-file", "-- notes/2026-04-11.md --\n"+text+"\n"+rest)
		if strings.Join(got, "\n") != want {
			t.Errorf("%s\n got %q\nwant %q", text, got, want)
		}
	}
}

// A file that is copied as it is gets a word once, unless all that names it is private.
func TestKeptInFile(t *testing.T) {
	const told = `"beam.pdf" goes out as it is, with all that is written in it: who made it, where, and more than is seen`
	line := func(words string) string {
		return "---\nstage: body\ncost: 138.00 beam; receipt beam.pdf" + words + "\n---\n"
	}
	for text, want := range map[string]string{
		"[the bill](beam.pdf)":                                            told,
		"[the bill](beam.pdf), [it](beam.pdf#2)":                          told,
		"- [ ] beam: the [bill](beam.pdf)":                                told,
		"- [ ] beam: the [bill](beam.pdf); private":                       "",
		"- [ ] job beam-in: fit it; private\n  - by the [bill](beam.pdf)": "",
		"- [ ] job beam-in: fit it\n  - by the [bill](beam.pdf)":          told,
		line(""):          told,
		line("; private"): "",
		line("; private") + "The [bill](beam.pdf).":     told,
		"---\nprivate: yes\n---\nThe [bill](beam.pdf).": "",
	} {
		got := problemsOf(t, "kept-in-file", "-- 2026-04-11.md --\n"+text+"\n-- beam.pdf --\n%PDF-1.7\n")
		if want == "" && len(got) > 0 || want != "" && (len(got) != 1 || !strings.HasPrefix(got[0], want+" | ")) {
			t.Errorf("%s\n got %q\nwant %q", text, got, want)
		}
	}
}

func TestOutsideBuild(t *testing.T) {
	for target, outside := range map[string]bool{
		"../a.jpg": true, "../../a.jpg": true, "/etc/passwd": true, "..": true, "notes/../../a.jpg": true,
		"C:/a.jpg": true, "%2e%2e/a.jpg": true, "file:///etc/passwd": true,
		"notes/../a.jpg": false, "a.jpg": false, "..a.jpg": false, "https://example.org/../a.jpg": false,
	} {
		got := problemsOf(t, "outside-build", "![a]("+target+")\n")
		if (len(got) == 1) != outside {
			t.Errorf("%s: %q", target, got)
		}
		if missing := problemsOf(t, "missing-file", "![a]("+target+")\n"); outside && len(missing) > 0 {
			t.Errorf("%s: said twice: %q", target, missing)
		}
	}
	// In a garage the neighbour's folder is outside too, although it can be read.
	garage := "-- garage.md --\n---\ngarage: The old dairy\ncurrency: GBP\n---\n-- one/build.md --\n" + exampleCard +
		"-- one/2026-04-11.md --\n![a](../two/a.md) ![b](b.md)\n-- one/b.md --\n-- two/build.md --\n" + exampleCard +
		"-- two/2026-04-11.md --\n![a](a.md)\n-- two/a.md --\n"
	found := proofread(t, folder(garage))
	if got := names(found); !slices.Equal(got, []string{"outside-build"}) {
		t.Error(printed(t, found))
	}
}

func TestRelative(t *testing.T) {
	for _, test := range [][3]string{
		{".", "a.pdf", "a.pdf"}, {"notes", "a.jpg", "../a.jpg"}, {"notes", "notes/a.jpg", "a.jpg"},
		{"notes/old", "photos/a.jpg", "../../photos/a.jpg"}, {"a/b", "a/c/d.jpg", "../c/d.jpg"}, {".", "a/b.jpg", "a/b.jpg"},
	} {
		if got := relative(test[0], test[1]); got != test[2] {
			t.Errorf("from %s to %s: %s, want %s", test[0], test[1], got, test[2])
		}
	}
}

func TestRawHTML(t *testing.T) {
	for text, want := range map[string]int{
		"a <b>c</b> d": 1, "<!-- a <b>c</b> -->": 0, "a <!-- b --> c": 0, "<div>\na\n</div>": 1, "`<b>`": 0,
		"a < b > c": 0, "<https://example.org>": 0, "\\<b>": 0, "```\n<b>\n```": 0, "<script>\nx\n\ny\n</script>": 1, "<br>\n\n<hr>": 2,
		"<!-- a --> b": 0, "<!-- a --> <b>c": 1, "<!-- a": 0, "<!-- a\n\nb -->": 0, "a <!-- <b>\n\n<i> --> c": 0, "<div>\n<!-- a -->\n</div>": 1, "<!-- a --> <!-- b -->": 0,
	} {
		if got := problemsOf(t, "raw-html", text+"\n"); len(got) != want {
			t.Errorf("%s: %q", text, got)
		}
	}
}

// Systems spell é in one letter or in two. Whichever the note has, and whichever
// the disk, it is the same file.
func TestBothSpellings(t *testing.T) {
	for _, name := range []string{"caf\u00e9.pdf", "cafe\u0301.pdf"} {
		for _, file := range []string{"caf\u00e9.pdf", "cafe\u0301.pdf"} {
			build := "-- 2026-04-11.md --\n[a](papers/" + name + ")\n-- papers/" + file + " --\n"
			if got := problemsOf(t, "missing-file", build); len(got) > 0 {
				t.Errorf("%+q for %+q: %q", name, file, got)
			}
		}
	}
	if got := problemsOf(t, "missing-file", "-- 2026-04-11.md --\n[a](cafe.pdf)\n-- caf\u00e9.pdf --\n"); len(got) != 1 || !strings.Contains(got[0], "Nearest: \"caf\u00e9.pdf\"") {
		t.Errorf("without the mark: %q", got)
	}
}
