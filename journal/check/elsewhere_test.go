package check

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/marker"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// onDisk makes, for each check whose mistake no text can show, a folder that has it.
var onDisk = map[source.Flaw][]struct {
	name  string
	make  func(t *testing.T, dir string)
	place string // what is printed first
}{
	"no-card": {
		{"no build.md", func(t *testing.T, dir string) {
			if err := os.Remove(filepath.Join(dir, "build.md")); err != nil {
				t.Fatal(err)
			}
		}, "build.md:1:1: error, no-card: this build has no job card, build.md\n"},
	},
	"unreadable": {
		{"a link that leads nowhere", func(t *testing.T, dir string) {
			link(t, "gone.md", filepath.Join(dir, "2026-04-12.md"))
		}, "2026-04-12.md:1:1: error, unreadable: \"2026-04-12.md\" cannot be read: it is a link that leads nowhere: no such file or directory\n"},
		{"a link to itself", func(t *testing.T, dir string) {
			link(t, "2026-04-12.md", filepath.Join(dir, "2026-04-12.md"))
		}, "2026-04-12.md:1:1: error, unreadable: \"2026-04-12.md\" cannot be read: "},
		{"a note of somebody else", func(t *testing.T, dir string) {
			write(t, filepath.Join(dir, "2026-04-12.md"), "")
			forbid(t, filepath.Join(dir, "2026-04-12.md"))
		}, "2026-04-12.md:1:1: error, unreadable: \"2026-04-12.md\" cannot be read: permission denied\n"},
		{"a folder of somebody else", func(t *testing.T, dir string) {
			if err := os.Mkdir(filepath.Join(dir, "notes"), 0o777); err != nil {
				t.Fatal(err)
			}
			forbid(t, filepath.Join(dir, "notes"))
		}, "notes:1:1: error, unreadable: \"notes\" cannot be read: permission denied\n"},
	},
	"not-utf8": {
		{"Latin-1 in the prose", func(t *testing.T, dir string) {
			write(t, filepath.Join(dir, "2026-04-12.md"), "Målning\nm\xe5la\n")
		}, "2026-04-12.md:2:2: error, not-utf8: the byte 0xE5 is not UTF-8\n"},
		{"Latin-1 in a line", func(t *testing.T, dir string) {
			write(t, filepath.Join(dir, "2026-04-12.md"), "---\nstage: body\ntime: 2h m\xe5la\n---\n")
		}, "2026-04-12.md:3:11: error, not-utf8: the byte 0xE5 is not UTF-8\n"},
	},
	"too-large": {
		{"five million bytes", func(t *testing.T, dir string) {
			write(t, filepath.Join(dir, "2026-04-12.md"), strings.Repeat("word ", 1<<20))
		}, "2026-04-12.md:1:1: error, too-large: the file is larger than 4 MiB\n"},
	},
	"bad-picture": {
		{"a phone's", shows("a.heic", "\x00\x00\x00\x18ftypheic"), "2026-04-12.md:1:1: warning, bad-picture: \"a.heic\" is not shown: it is a HEIC picture\n"},
		{"an empty one", shows("a.jpg", ""), "2026-04-12.md:1:1: warning, bad-picture: \"a.jpg\" is not shown: the file is empty\n"},
		{"one cut short", shows("a.gif", "GIF89a\x10"), "2026-04-12.md:1:1: warning, bad-picture: \"a.gif\" is not shown: the picture is cut short: its end is missing\n"},
		{"a huge one", shows("a.gif", "GIF89a\xff\xff\xff\xff\x00\x00\x00"), "2026-04-12.md:1:1: warning, bad-picture: \"a.gif\" is not shown: it is 65535 by 65535 pixels, more than 120 million\n"},
		{"a video", shows("a.mov", "film"), "2026-04-12.md:1:1: warning, bad-picture: \"a.mov\" is not shown: a file that ends in .mov is never published, since it may hold more than is seen\n"},
		{"one of somebody else", func(t *testing.T, dir string) {
			shows("a.jpg", "x")(t, dir)
			forbid(t, filepath.Join(dir, "a.jpg"))
		}, "2026-04-12.md:1:1: warning, bad-picture: \"a.jpg\" is not shown: it cannot be read: permission denied\n"},
	},
	"note-in-site": {
		{"one saved into a site", func(t *testing.T, dir string) {
			publishedWith(t, filepath.Join(dir, "site"), "sessions/2026-04-12.md")
		}, "site/sessions/2026-04-12.md:1:1: error, note-in-site: \"site/sessions/2026-04-12.md\" lies in a folder that guidecoat published, where no note is read\n"},
		{"a job card among notes that somebody has marked", func(t *testing.T, dir string) {
			publishedWith(t, filepath.Join(dir, "notes"), "build.md")
		}, "notes/build.md:1:1: error, note-in-site: "},
		{"a link to a note", func(t *testing.T, dir string) {
			publishedWith(t, filepath.Join(dir, "notes"), "a")
			link(t, "a", filepath.Join(dir, "notes", "2026-04-12.MD"))
		}, "notes/2026-04-12.MD:1:1: error, note-in-site: "},
	},
	"linked-folder": {
		{"a link to another folder", func(t *testing.T, dir string) {
			link(t, t.TempDir(), filepath.Join(dir, "photos"))
		}, "photos:1:1: information, linked-folder: \"photos\" is a link to a folder and is not followed\n"},
		{"a link round in a circle", func(t *testing.T, dir string) {
			link(t, ".", filepath.Join(dir, "here"))
		}, "here:1:1: information, linked-folder: \"here\" is a link to a folder and is not followed\n"},
	},
}

// publishedWith makes a folder with a whole marker, and that file in it.
func publishedWith(t *testing.T, dir, name string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o777); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, marker.Marker), marker.Site{Audience: "public", Build: "x"}.Text())
	write(t, filepath.Join(dir, name), "---\nstage: body\n---\n")
}

// shows makes a file of that name, and a note that shows it.
func shows(name, data string) func(t *testing.T, dir string) {
	return func(t *testing.T, dir string) {
		write(t, filepath.Join(dir, name), data)
		write(t, filepath.Join(dir, "2026-04-12.md"), "![the beam]("+name+")\n")
	}
}

// A link to a file somewhere else is not published, and no way round that.
func TestLinkOutOfTheBuild(t *testing.T) {
	out := t.TempDir()
	write(t, filepath.Join(out, "a.pdf"), "%PDF-1.7")
	for to, outside := range map[string]bool{filepath.Join(out, "a.pdf"): true, "papers/b.pdf": false, "../b.pdf": true} {
		top := t.TempDir()
		dir := filepath.Join(top, "build")
		if err := os.MkdirAll(filepath.Join(dir, "papers"), 0o777); err != nil {
			t.Fatal(err)
		}
		write(t, filepath.Join(dir, "build.md"), exampleCard)
		write(t, filepath.Join(dir, "papers", "b.pdf"), "%PDF-1.7")
		write(t, filepath.Join(top, "b.pdf"), "%PDF-1.7")
		link(t, to, filepath.Join(dir, "a.pdf"))
		write(t, filepath.Join(dir, "2026-04-12.md"), "[the test](a.pdf)\n")
		got := printed(t, proofread(t, os.DirFS(dir)))
		if strings.Contains(got, "outside-build") != outside || strings.Contains(got, "missing-file") {
			t.Errorf("%s: %s", to, got)
		}
	}
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

func link(t *testing.T, to, name string) {
	t.Helper()
	if err := os.Symlink(to, name); err != nil {
		t.Skip(err)
	}
}

func forbid(t *testing.T, name string) {
	t.Helper()
	if os.Geteuid() == 0 {
		t.Skip("root may read everything")
	}
	if err := os.Chmod(name, 0); err != nil {
		t.Skip(err)
	}
	t.Cleanup(func() { _ = os.Chmod(name, 0o700) })
}

func TestElsewhere(t *testing.T) {
	for _, c := range All {
		if c.Elsewhere && len(onDisk[c.Name]) == 0 {
			t.Errorf("%s is tested nowhere", c.Name)
		}
	}
	for name, tests := range onDisk {
		if c := byName[name]; c == nil || !c.Elsewhere {
			t.Errorf("%s: its own examples can show it", name)
		}
		for _, test := range tests {
			t.Run(string(name)+"/"+test.name, func(t *testing.T) {
				dir := t.TempDir()
				write(t, filepath.Join(dir, "build.md"), exampleCard)
				write(t, filepath.Join(dir, "2026-04-11.md"), "A long day.\n")
				test.make(t, dir)
				found := proofread(t, os.DirFS(dir))
				found = slices.DeleteFunc(found, func(p problem.Problem) bool {
					return p.Severity == problem.Information && p.Check != string(name)
				})
				if got := printed(t, found); len(found) != 1 || !strings.HasPrefix(got, test.place) {
					t.Errorf("got\n%swant one that begins\n%s", got, test.place)
				}
				for _, p := range found {
					wording(t, p)
				}
			})
		}
	}
}

func TestLargestNoteIsRead(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "build.md"), exampleCard)
	write(t, filepath.Join(dir, "2026-04-11.md"), strings.Repeat("words\n\n", note.MaxSize/7))
	if found := proofread(t, os.DirFS(dir)); len(found) > 0 {
		t.Error(printed(t, found))
	}
}

// Nothing is said of a part for lack of what a line with a mistake was to say, whatever
// its id is made of.
func TestMistakesLeavePartsInDoubt(t *testing.T) {
	for id, want := range map[string]string{"hub-2a": "", "hub-3": "is fitted, but nothing is paid for it"} {
		wantOf(t, "fitted-unpaid", "---\nstage: body\nparts:\n  "+id+": fitted hub\ncost: 12,5 hub; for hub-2a\n---\n", want)
	}
	wantOf(t, "fitted-unpaid", "---\nstage: body\nparts:\n  hub-4: fitted hub\ncost: 5.00 glue\ncost:\n  - 12.00 hub; for hub-4\n---\n", "")
}
