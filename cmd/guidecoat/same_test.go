package main

import (
	"bytes"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The same notes give the same bytes, whatever surrounds the run: time zone,
// language, umask, number of processors, working directory.
func TestSameInSameOut(t *testing.T) {
	if _, err := exec.LookPath("sh"); err != nil {
		t.Skip(err)
	}
	program := filepath.Join(t.TempDir(), "guidecoat")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	example, err := filepath.Abs("../../example-build")
	if err != nil {
		t.Fatal(err)
	}
	var first map[string]string
	for _, around := range []struct{ dir, umask, env string }{
		{".", "022", "TZ=UTC LANG=C"},
		{example, "077", "TZ=Pacific/Kiritimati LANG=tr_TR.UTF-8 GOMAXPROCS=1"},
		{os.TempDir(), "000", "TZ=America/Adak LC_ALL=de_DE.UTF-8 GOMAXPROCS=7 GOGC=10"},
	} {
		to := filepath.Join(t.TempDir(), "site")
		env := "env SOURCE_DATE_EPOCH=1780300800 " + around.env + " " // 2026-06-01
		script := "umask " + around.umask + "; " + env + program + " publish " + example + " --for workshop --to " + to + " >/dev/null 2>&1; " +
			env + program + " snags " + example + " --json; " + env + program + " costs " + example
		cmd := exec.Command("sh", "-c", script)
		cmd.Dir = around.dir
		out, err := cmd.Output()
		if err != nil || len(out) == 0 {
			t.Fatalf("%v: %v", around, err)
		}
		got := map[string]string{"the output": string(out)}
		for name, text := range tree(t, to) {
			_, got[name], _ = strings.Cut(text, "\n") // without its time
		}
		if first == nil {
			first = got
		}
		if !maps.Equal(got, first) {
			for name := range got {
				if got[name] != first[name] {
					t.Errorf("%v: %s differs", around, name)
				}
			}
		}
	}
	if len(first) < 20 || !bytes.Contains([]byte(first["the output"]), []byte("overdue")) {
		t.Errorf("only %d files", len(first))
	}
}

// SOURCE_DATE_EPOCH is today.
func TestSourceDateEpoch(t *testing.T) {
	for value, want := range map[string]string{"1780300800": "2026-06-01", "0": "1970-01-01", "": "2026-11-25", "yes": "2026-11-25"} {
		w := world{getenv: func(name string) string { return map[string]string{"SOURCE_DATE_EPOCH": value}[name] }, now: theDay}
		if got := w.today().String(); got != want {
			t.Errorf("%q: today is %s, want %s", value, got, want)
		}
	}
}
