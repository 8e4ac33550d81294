package place

import (
	"errors"
	"fmt"
	"io/fs"
	"iter"
	"maps"
	"math/rand/v2"
	"os"
	"path"
	"strings"
	"sync"
	"testing"
	"time"

	"guidecoat/journal/marker"
)

// A chance plants folders as they might be found, and gives every file that is not
// ours a text of its own, by which it is known wherever it is afterwards.
type chance struct {
	*rand.Rand
	root  *os.Root
	mine  []string // the texts
	count int
	done  []string
}

func (c *chance) one(list ...string) string { return list[c.IntN(len(list))] }

func (c *chance) say(format string, args ...any) {
	c.done = append(c.done, fmt.Sprintf(format, args...))
}

// save writes somebody's file or link, if there is room for it at that path.
func (c *chance) save(at string) {
	c.count++
	text := fmt.Sprintf("mine %d;", c.count)
	if c.root.MkdirAll(path.Dir(at), 0o755) != nil {
		return
	}
	var err error
	if c.IntN(6) == 0 {
		err = c.root.Symlink(text, at)
	} else if info, e := c.root.Lstat(at); e != nil || info.Mode().IsRegular() {
		was, _ := c.root.ReadFile(at)
		c.forget(string(was))
		if e == nil && c.IntN(2) == 0 { // as editors do, and not through a second name
			c.root.Remove(at)
		}
		err = c.root.WriteFile(at, []byte(text), 0o644)
	} else {
		return
	}
	if err == nil {
		c.mine = append(c.mine, text)
		c.say("save %s: %s", at, text)
	}
}

// forget is for a text that its own builder wrote over.
func (c *chance) forget(text string) {
	for i, m := range c.mine {
		if m == text {
			c.mine = append(c.mine[:i:i], c.mine[i+1:]...)
			return
		}
	}
}

var anyName = []string{"index.html", "notes/a.html", "notes/b.html", "photos/deep/c.jpg", "build.md", "notes/2026-04-11.md", "NOTES.MD", "garage.md",
	"photos/mine.jpg", "photos/deep/mine.jpg", "letter.txt", "more/deep/er.txt", ".git/HEAD", "index.html/x", ".hidden", "site/index.html", "list.md.txt"}

// marker returns a marker of some sort for a folder that is to hold those files.
func (c *chance) marker(files tree) string {
	whole := markerOf(files, "public")
	switch c.IntN(14) {
	case 0:
		return ""
	case 1:
		return "guidecoat site for public\n"
	case 2:
		return whole[:c.IntN(len(whole))]
	case 3:
		at := c.IntN(len(whole))
		return whole[:at] + "x" + whole[at+1:]
	case 4:
		return markerOf(files, "buyer")
	case 5:
		return markerOf(files.with(tree{"build.md": "x", "notes/2026-04-11.md": "x"}), "public")
	case 6:
		return markerOf(files.with(tree{"../note.md": "x", "/etc/x": "x"}), "public")
	case 7:
		list := strings.Join(anyName, "\n")
		return "guidecoat site for public\n" + list + "\n"
	case 9: // as long as it is being written
		return whole[:strings.LastIndex(whole[:len(whole)-1], "\n")+1]
	case 8: // which names what may be somebody's, and proves it only for our own texts
		return markerOf(files.with(tree{"letter.txt": "x", "photos/mine.jpg": "y", "more/deep/er.txt": ""}), "public")
	}
	return whole
}

// plant makes a folder that may be a site, or may have been one.
func (c *chance) plant(name string) {
	c.say("plant %s", name)
	if c.IntN(5) > 0 {
		site := tree{}
		for at, text := range small {
			if c.IntN(8) > 0 {
				site[at] = text
			}
		}
		for at, text := range site {
			_, err := c.root.Lstat(path.Join(name, at))
			if err != nil && c.root.MkdirAll(path.Dir(path.Join(name, at)), 0o755) == nil {
				c.root.WriteFile(path.Join(name, at), []byte(text), 0o644)
			}
		}
		if c.IntN(8) > 0 {
			at := path.Join(name, marker.Marker)
			if _, err := c.root.Lstat(at); err != nil { // it may be a link to the note
				c.root.WriteFile(at, []byte(c.marker(site)), 0o644)
			}
		}
	}
	for c.IntN(3) == 0 {
		c.save(path.Join(name, c.one(anyName...)))
	}
	switch c.IntN(20) {
	case 0:
		c.root.Mkdir(path.Join(name, "empty"), 0o755)
	case 1:
		c.root.Remove(path.Join(name, marker.Marker))
		c.root.Symlink("../note.md", path.Join(name, marker.Marker))
	case 2:
		c.root.Remove(path.Join(name, marker.Marker))
		c.root.Mkdir(path.Join(name, marker.Marker), 0o755)
	}
}

// interrupted gives the files, and between them somebody saves into the folder.
func (c *chance) interrupted(site tree, name string) iter.Seq2[File, error] {
	return func(yield func(File, error) bool) {
		for file := range site.files() {
			if c.IntN(8) == 0 {
				c.save(path.Join(name, c.one(anyName...)))
			}
			if c.IntN(60) == 0 {
				yield(File{}, errHalfway)
				return
			}
			if !yield(file, nil) {
				return
			}
		}
	}
}

// texts are all that files hold and links lead to.
func texts(t testing.TB, root *os.Root) string {
	t.Helper()
	var b strings.Builder
	err := fs.WalkDir(root.FS(), ".", func(p string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		if to, err := root.Readlink(p); err == nil {
			b.WriteString(to)
			return nil
		}
		text, err := root.ReadFile(p)
		b.Write(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// No note, card or foreign file ever changes or vanishes, whatever stands in the
// folder and beside it, whatever is saved there meanwhile, and whatever goes wrong.
func TestNothingIsLost(t *testing.T) {
	runs := uint64(3000)
	if os.Getenv("GUIDECOAT_LONG") != "" {
		runs = 200_000
	}
	published, refused, aside := 0, 0, 0
	found := []uint64{4705, 10802} // by longer searches
	for n := range runs {
		seed := n
		if n < uint64(len(found)) {
			seed = found[n]
		}
		root := openIn(t, memory)
		c := &chance{Rand: rand.New(rand.NewPCG(seed, 12)), root: root}
		c.save("note.md")
		name := c.one("site", "site", "site", "notes", ".site.new-design")
		for range c.IntN(4) {
			c.plant(c.one(name, name, ".site.new-design", ".site.old-spring", leftNew, leftOld, "site-kept", "site-kept-2", "notes"))
		}
		if c.IntN(20) == 0 {
			c.save("." + name + ".lock")
		}
		before, mine := listing(t, root), c.count
		p := plan{at: -1, steps: c.IntN(3) == 0}
		if c.IntN(3) == 0 {
			p.at, p.how = c.IntN(90), []fault{fails, lies, dies}[c.IntN(3)]
		}
		after := small.with(tree{c.one("index.html", "notes/a.html", "new.html"): c.one("home", "new", "-")})
		report, err := putOn(faulty{folder{root}, &p}, name, forPublic, c.interrupted(after, name))
		switch {
		case err == nil:
			published++
		case strings.Contains(err.Error(), "did not put there") || strings.Contains(err.Error(), "does not prove"):
			refused++
			now, lock := listing(t, root), "./."+name+".lock"
			if p.at >= 0 && before[lock] == "" { // it may be killed when all that is left to do is to unlock
				delete(now, lock)
			}
			if before["./"+leftNew] == "" && before["./"+leftOld] == "" && mine == c.count && !maps.Equal(before, now) {
				t.Errorf("seed %d: refused, and %v is now %v", seed, before, now)
			}
		}
		aside += len(report.Aside)
		all := texts(t, root)
		for _, text := range c.mine {
			if !strings.Contains(all, text) {
				t.Errorf("seed %d: %q is lost: %v\nreport %+v, %v, %+v", seed, text, strings.Join(c.done, "\n"), report, err, p)
			}
		}
		for _, at := range report.Aside {
			if _, err := root.Lstat(at); err != nil {
				t.Errorf("seed %d: said to be kept: %v", seed, err)
			}
		}
		root.Close()
		os.RemoveAll(root.Name())
		if t.Failed() {
			break
		}
	}
	t.Logf("%d published, %d refused, %d kept beside", published, refused, aside)
	if published < int(runs)/10 || refused < int(runs)/10 || aside < int(runs)/20 {
		t.Error("that tries too little")
	}
}

// A saver saves files into the site again and again, by its path and through a
// folder that it holds open, and takes away those that stand in the way.
type saver struct {
	root  *os.Root
	saved []string
	stop  chan struct{}
	done  sync.WaitGroup
}

func startSaver(t *testing.T, root *os.Root) *saver {
	t.Helper()
	s := &saver{root: root, stop: make(chan struct{})}
	must(t, errors.Join(root.Mkdir("mine", 0o755), root.WriteFile("note.md", []byte(theNote), 0o644)))
	s.done.Go(func() {
		for n := 0; ; n++ {
			select {
			case <-s.stop:
				return
			default:
			}
			name := fmt.Sprintf("%s%d%s", []string{"saved-", "notes/", "more/"}[n%3], n, []string{".txt", ".md"}[n%2])
			s.save(root, "site/", name)
			if within, err := root.OpenRoot("site"); err == nil {
				time.Sleep(time.Duration(n%5) * 100 * time.Microsecond)
				s.save(within, "", "open-"+path.Base(name))
				within.Close()
			}
			time.Sleep(time.Millisecond)
			for _, at := range []string{name, "open-" + path.Base(name)} {
				root.Rename("site/"+at, "mine/"+path.Base(at))
			}
			time.Sleep(time.Duration(n%7) * time.Millisecond)
		}
	})
	return s
}

func (s *saver) save(in *os.Root, dir, name string) {
	text := fmt.Sprintf("saved %s%s;", dir, name)
	if path.Dir(name) != "." { // a folder called site is another thing
		in.Mkdir(path.Dir(dir+name), 0o755)
	}
	if in.WriteFile(dir+name, []byte(text), 0o644) == nil {
		s.saved = append(s.saved, text)
	}
}

// check ends the saving, and holds that all is still there.
func (s *saver) check(t *testing.T) {
	t.Helper()
	close(s.stop)
	s.done.Wait()
	all := texts(t, s.root)
	lost := 0
	for _, text := range append(s.saved, theNote) {
		if !strings.Contains(all, text) {
			lost++
		}
	}
	if lost > 0 || len(s.saved) < 100 {
		t.Errorf("%d of %d files are lost", lost, len(s.saved))
	}
}

func TestSavedWhilePublishing(t *testing.T) {
	rounds := 120
	if os.Getenv("GUIDECOAT_LONG") != "" {
		rounds = 20_000
	}
	for _, steps := range []bool{false, true} {
		root := openIn(t, memory)
		putFast(t, root, small)
		s := startSaver(t, root)
		published, aside := 0, 0
		for i := range rounds {
			report, err := putOn(faulty{folder{root}, &plan{at: -1, steps: steps}}, "site", forPublic, versions()[i%2].files())
			aside += len(report.Aside)
			switch {
			case err == nil:
				published++
			case strings.Contains(err.Error(), "did not put there"):
				time.Sleep(time.Millisecond)
			default:
				t.Errorf("in steps %v: %v", steps, err)
			}
		}
		s.check(t)
		t.Logf("in steps %v: %d of %d published, %d of %d files kept beside the site", steps, published, rounds, aside, len(s.saved))
		if published < rounds/10 || aside == 0 {
			t.Errorf("in steps %v: that tries too little", steps)
		}
	}
}

// The same with runs that are killed.
func TestSavedWhileKilled(t *testing.T) {
	kills := 12
	if os.Getenv("GUIDECOAT_LONG") != "" {
		kills = 200
	}
	for _, steps := range []bool{false, true} {
		root := openIn(t, memory)
		putFast(t, root, versions()[0])
		s := startSaver(t, root)
		for range kills {
			publishUntilKilled(t, root, steps, time.Duration(20+rand.IntN(80))*time.Millisecond)
		}
		s.check(t)
	}
}
