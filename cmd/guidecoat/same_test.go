package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// everything runs every command that gives something back about a build, on one day;
// each site is published twice.
const everything = `
for audience in public buyer workshop public; do
	"$GUIDECOAT" publish "$BUILD" --for $audience --to "$TO/$audience" --address https://example.org/ || exit
done >/dev/null
"$GUIDECOAT" handover "$BUILD" --uncleared --to "$TO/pack" --json
"$GUIDECOAT" proofread "$BUILD" --all --json
"$GUIDECOAT" proofread "$BUILD" --all --sarif
"$GUIDECOAT" parts "$BUILD" --to-buy || exit
for command in snags costs parts; do
	"$GUIDECOAT" $command "$BUILD" || exit
	"$GUIDECOAT" $command "$BUILD" --json || exit
done
"$GUIDECOAT" costs "$BUILD" --csv || exit
"$GUIDECOAT" bid "$BUILD" --json || exit
`

// The same notes give the same bytes, whatever surrounds the run: time zone,
// language, umask, number of processors, working directory, the network, or what
// was made before.
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
	fresh, used := t.TempDir(), t.TempDir()
	surroundings := []struct{ dir, umask, env, within string }{
		{".", "022", "TZ=UTC LANG=C HOME=" + used, ""},
		{example, "077", "TZ=Pacific/Kiritimati LANG=tr_TR.UTF-8 GOMAXPROCS=1 HOME=" + fresh, ""},
		{os.TempDir(), "000", "TZ=America/Adak LC_ALL=de_DE.UTF-8 GOMAXPROCS=7 GOGC=10 HOME=" + used, ""},
	}
	const offline = "unshare --user --map-root-user --net "
	if exec.Command("sh", "-c", offline+"true").Run() == nil {
		surroundings = append(surroundings, struct{ dir, umask, env, within string }{".", "022", "HOME=" + filepath.Join(fresh, "none"), offline})
	} else {
		t.Log("the network cannot be taken away here")
	}
	var first map[string]string
	for _, around := range surroundings {
		to := t.TempDir()
		cmd := exec.Command("sh", "-c", "umask "+around.umask+"; "+around.within+"env -u XDG_CACHE_HOME "+around.env+` sh -c "$EVERYTHING"`)
		cmd.Env = append(os.Environ(), "EVERYTHING="+everything, "GUIDECOAT="+program, "BUILD="+example, "TO="+to, "SOURCE_DATE_EPOCH=1780300800") // 2026-06-01
		cmd.Dir = around.dir
		var errs bytes.Buffer
		cmd.Stderr = &errs
		out, err := cmd.Output()
		if err != nil || !strings.Contains(errs.String(), "public is up to date") {
			t.Fatalf("%v: %v\n%s", around, err, &errs)
		}
		got := map[string]string{"the output": strings.ReplaceAll(string(out), to, "TO")}
		for name, text := range tree(t, to) {
			_, got[name], _ = strings.Cut(text, "\n") // without its time
		}
		if first == nil {
			first = got
		}
		for name := range got {
			if got[name] != first[name] {
				t.Errorf("%v: %s differs", around, name)
			}
		}
		if len(got) != len(first) {
			t.Errorf("%v: %d files, want %d", around, len(got), len(first))
		}
	}
	if len(first) < 200 || !strings.Contains(first["the output"], "overdue") {
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
