package place

import (
	"bytes"
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

// rival names the folder in which this program, run by TestRivals, is to publish
// again and again, whoever else does.
const rival = "GUIDECOAT_TEST_PUBLISH_AS_RIVAL"

func TestMain(m *testing.M) {
	if dir := os.Getenv(rival); dir != "" {
		os.Exit(publishAsRival(dir))
	}
	if dir := os.Getenv(victim); dir != "" {
		root, err := os.OpenRoot(dir)
		for i := 0; err == nil; i++ {
			_, err = Put(root, "site", "public", versions()[i%2].files())
		}
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// publishAsRival tells how often it had to wait.
func publishAsRival(dir string) int {
	root, err := os.OpenRoot(dir)
	refused := 0
	for i := 0; err == nil && i < 40; i++ {
		_, err = Put(root, "site", "public", versions()[i%2].files())
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

func TestKilled(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("without an exchange there may be no site until the next run")
	}
	root := open(t)
	first, second := marked(versions()[0]), marked(versions()[1])
	kills := 20
	if os.Getenv("GUIDECOAT_LONG") != "" {
		kills = 200
	}
	published := false
	for i := range kills {
		child := exec.Command(os.Args[0])
		child.Env = append(os.Environ(), victim+"="+root.Name())
		child.Stderr = os.Stderr
		if err := child.Start(); err != nil {
			t.Fatal(err)
		}
		wait := time.Duration(rand.IntN(150)) * time.Millisecond
		if !published { // on a busy machine it takes long to begin
			wait *= time.Duration(1 + 2*i)
		}
		time.Sleep(wait)
		child.Process.Kill()
		if err := child.Wait(); child.ProcessState.Exited() {
			t.Fatalf("it ended before it was killed: %v", err)
		}
		if _, err := root.Lstat("site"); err != nil && !published {
			continue
		}
		published = true
		if got := read(t, root, "site"); !maps.Equal(got, first) && !maps.Equal(got, second) {
			t.Fatalf("the site is neither of the two: %v", got)
		}
	}
	if !published {
		t.Error("it was killed every time before it had published")
	}
	put(t, root, small)
	expect(t, root, small)
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
