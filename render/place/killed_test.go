package place

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"
)

// victim names the folder in which this program, run by TestKilled, is to publish
// one site after the other until it is killed.
const victim = "GUIDECOAT_TEST_PUBLISH_UNTIL_KILLED"

// inSteps is "true" where the victim's disk is to be one without an exchange.
const inSteps = "GUIDECOAT_TEST_PUBLISH_IN_STEPS"

// rival names the folder in which this program, run by TestRivals, is to publish
// again and again, whoever else does.
const rival = "GUIDECOAT_TEST_PUBLISH_AS_RIVAL"

func TestMain(m *testing.M) {
	if dir := os.Getenv(rival); dir != "" {
		os.Exit(publishAsRival(dir))
	}
	if dir := os.Getenv(victim); dir != "" {
		fmt.Fprintln(os.Stderr, publishAsVictim(dir))
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// publishAsVictim returns only if something goes wrong.
func publishAsVictim(dir string) error {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return err
	}
	var on disk = folder{root}
	if os.Getenv(inSteps) == "true" {
		on = withoutExchange{folder{root}}
	}
	for i := 0; err == nil; i++ {
		_, err = putOn(on, "site", forPublic, versions()[i%2].files())
		if err != nil && strings.Contains(err.Error(), "did not put there") { // see saver
			err = nil
		}
	}
	return err
}

// withoutExchange is a disk as many network drives are: slow too, so that runs are
// killed between two steps.
type withoutExchange struct{ folder }

func (d withoutExchange) Rename(from, to string) error {
	time.Sleep(2 * time.Millisecond)
	return d.folder.Rename(from, to)
}

func (withoutExchange) exchange(string, string) error { return errors.ErrUnsupported }

// publishAsRival tells how often it had to wait.
func publishAsRival(dir string) int {
	root, err := os.OpenRoot(dir)
	refused := 0
	for i := 0; err == nil && i < 40; i++ {
		_, err = Put(root, "site", forPublic, versions()[i%2].files())
		if err != nil && strings.Contains(err.Error(), "another run of guidecoat") {
			refused, err = refused+1, nil
		}
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	fmt.Println(refused)
	return 0
}

// Two programs that publish to one folder at once do not mix: the one that comes
// second is told to wait.
func TestRivals(t *testing.T) {
	root := open(t)
	var rivals []*exec.Cmd
	var said [2]bytes.Buffer
	for i := range said {
		child := exec.Command(os.Args[0])
		child.Env = append(os.Environ(), rival+"="+root.Name())
		child.Stdout, child.Stderr = &said[i], os.Stderr
		if err := child.Start(); err != nil {
			t.Fatal(err)
		}
		rivals = append(rivals, child)
	}
	refused := 0
	for i, child := range rivals {
		if err := child.Wait(); err != nil {
			t.Error(err)
		}
		n, err := strconv.Atoi(strings.TrimSpace(said[i].String()))
		if err != nil {
			t.Error(err)
		}
		refused += n
	}
	if refused == 0 {
		t.Log("they never met")
	}
	first, second := marked(versions()[0]), marked(versions()[1])
	if got := read(t, root, "site"); !maps.Equal(got, first) && !maps.Equal(got, second) {
		t.Errorf("the site is neither of the two: %v", got)
	}
	expectAlone(t, root, "site")
}

// versions are two sites that share half of their files.
func versions() [2]tree {
	first, second := tree{}, tree{}
	for i := range 60 {
		name := fmt.Sprintf("notes/%02d/index.html", i)
		first[name], second[name] = "same", "same"
		if i%2 == 0 {
			first[name], second[name] = fmt.Sprint("first ", i), fmt.Sprint("the second ", i)
		}
	}
	return [2]tree{first.with(tree{"only-first.html": "x"}), second}
}

// TestKilled kills a run at any moment, with and without an exchange of folders.
// After each kill the site is whole: in its place, or without an exchange set aside.
func TestKilled(t *testing.T) {
	for _, steps := range []bool{false, true} {
		if !steps && runtime.GOOS != "linux" {
			continue
		}
		t.Run(fmt.Sprintf("in steps %v", steps), func(t *testing.T) { killAgainAndAgain(t, steps) })
	}
}

func killAgainAndAgain(t *testing.T, steps bool) {
	root := openIn(t, memory)
	must(t, root.WriteFile("note.md", []byte(theNote), 0o444))
	first, second := marked(versions()[0]), marked(versions()[1])
	kills, aside := 20, 0
	if os.Getenv("GUIDECOAT_LONG") != "" {
		kills = 200
	}
	published := false
	for i := range kills {
		wait := time.Duration(rand.IntN(150_000)) * time.Microsecond
		if !published { // on a busy machine it takes long to begin
			wait *= time.Duration(1 + 2*i)
		}
		publishUntilKilled(t, root, steps, wait)
		now := standing(t, root, "site")
		if now == nil && !published {
			continue
		}
		if now == nil && steps {
			whole := setAside(t, root)
			if _, err := Put(root, "site", forPublic, halfway(small)); err != errHalfway { // but puts it back
				t.Fatal(err)
			}
			if now = standing(t, root, "site"); !maps.Equal(now, whole) {
				t.Fatalf("the site set aside was %v and is now %v", whole, now)
			}
			aside++
		}
		published = true
		if !maps.Equal(now, first) && !maps.Equal(now, second) {
			t.Fatalf("the site is neither of the two: %v", now)
		}
		if note, err := root.ReadFile("note.md"); err != nil || string(note) != theNote {
			t.Fatalf("the note is %q (%v)", note, err)
		}
	}
	if !published {
		t.Error("it was killed every time before it had published")
	}
	if steps && aside == 0 && kills == 200 {
		t.Error("it was never killed between the two steps")
	}
	t.Logf("%d times the site was found set aside", aside)
	put(t, root, small)
	must(t, root.Remove("note.md"))
	expect(t, root, small)
}

// publishUntilKilled runs this program as a victim for that long.
func publishUntilKilled(t *testing.T, root *os.Root, steps bool, wait time.Duration) {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), victim+"="+root.Name(), fmt.Sprintf("%s=%v", inSteps, steps))
	child.Stderr = os.Stderr
	must(t, child.Start())
	time.Sleep(wait)
	must(t, child.Process.Kill())
	if err := child.Wait(); child.ProcessState.Exited() {
		t.Fatalf("it ended before it was killed: %v", err)
	}
}

// BenchmarkPut publishes a site of 10,000 pages: as a new one, again without a
// change, and with every tenth page changed.
func BenchmarkPut(b *testing.B) {
	const pages = 10_000
	site := func(changed int) tree {
		out := tree{}
		for i := range pages {
			data := make([]byte, 6000)
			if i%10 == 0 {
				data[0] = byte(changed)
			}
			out[fmt.Sprintf("notes/%05d.html", i)] = string(data)
		}
		return out
	}
	var versions [2]tree
	for i := range versions {
		versions[i] = site(i)
	}
	b.Run("new", func(b *testing.B) {
		for b.Loop() {
			b.StopTimer()
			root := open(b)
			b.StartTimer()
			put(b, root, versions[0])
		}
	})
	b.Run("unchanged", func(b *testing.B) {
		root := open(b)
		put(b, root, versions[0])
		for b.Loop() {
			put(b, root, versions[0])
		}
	})
	b.Run("tenth", func(b *testing.B) {
		root := open(b)
		for i := 0; b.Loop(); i++ {
			put(b, root, versions[i%2])
		}
	})
}
