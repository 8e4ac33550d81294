package state

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"guidecoat/journal"
	"guidecoat/journal/trial"
)

// Snags and parts as of a date are those of a build that holds only the notes up
// to that date. (Money may be dated before its note, so it is not compared.)
func TestAsOfIsTheBuildOfThatDay(t *testing.T) {
	t.Parallel()
	builds := 150
	if testing.Short() {
		builds = 30
	}
	for seed := range builds {
		fsys, dates := snagBuild(uint64(seed))
		whole := trial.CompileFS(t, fsys, ".")
		for _, date := range slices.Compact(slices.Sorted(maps.Values(dates))) {
			part := fstest.MapFS{journal.CardName: fsys[journal.CardName]}
			for name, d := range dates {
				if d <= date {
					part[name] = fsys[name]
				}
			}
			got, want := stateOf(At(whole, trial.Day(date), trial.Today)), stateOf(At(trial.CompileFS(t, part, "."), trial.Day(date), trial.Today))
			if !slices.Equal(got, want) {
				t.Fatalf("build %d as of %s\n got %s\nwant %s\n%s", seed, date, strings.Join(got, "\n     "), strings.Join(want, "\n     "), written(fsys))
			}
		}
		last := slices.Max(slices.Collect(maps.Values(dates)))
		if got, want := stateOf(At(whole, trial.Day(last), 0)), stateOf(At(whole, 0, trial.Day(last))); !slices.Equal(got, want) {
			t.Fatalf("build %d on its last day\n got %q\nwant %q", seed, got, want)
		}
	}
}

func written(fsys fstest.MapFS) string {
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(fsys)) {
		b.WriteString("-- " + name + " --\n" + string(fsys[name].Data))
	}
	return b.String()
}

// stateOf writes out everything that is known of snags and parts.
func stateOf(st *State) []string {
	var list []string
	for _, s := range st.Snags {
		line := fmt.Sprintf("snag %s %s %s %s |%s| %s/%s open:%v %s..%s due %s %v waits %v takes %v %v%v%v %v %s:%d", s.ID, s.Kind, s.Source, s.Severity, s.Words, s.Stage, s.System,
			s.Open, s.Opened, s.Cleared, s.Due, s.DueAt, s.WaitsFor, s.Takes, s.Disclose, s.Private, s.Overdue, s.Doable, s.Session.Path, s.Line())
		for _, e := range s.Events {
			line += fmt.Sprintf("; %s %s |%s| %s:%d", e.What, e.Date, e.Words, e.Session.Path, e.Span.Begin().Line)
		}
		list = append(list, line)
	}
	for _, p := range st.Parts {
		line := fmt.Sprintf("part %s %s %s %s/%s %s %s %v due %s paid %s %v late:%v", p.ID, p.State, p.Since, p.Stage, p.System, p.Condition, p.Origin, p.Estimate, p.Due, p.Paid, p.PaidInRound, p.Late)
		for _, l := range p.Lines {
			line += fmt.Sprintf("; %s %s %s", l.State, l.Remark, l.Session.Path)
		}
		list = append(list, line)
	}
	return append(list, fmt.Sprint("odometer ", st.Odometer, " surcharge ", st.SurchargeDue))
}

// snagBuild makes up sessions full of snags, parts, checks, readings and scans,
// sound and not, and returns them with their dates. Lines name only what an
// earlier line or the first session has, since a note of that day could not know more;
// for the same reason only the first session says to which stage a part belongs.
func snagBuild(seed uint64) (fstest.MapFS, map[string]string) {
	rng := rand.New(rand.NewPCG(seed, 9))
	pick := func(list ...string) string { return list[rng.IntN(len(list))] }
	chance := func(n int) bool { return rng.IntN(n) == 0 }
	ids := []string{"alpha-seal", "brake-pipe", "cable-tray", "door-hinge", "engine-mount", "fuse-holder"}
	parts := []string{"rear-beam", "lamp-left", "gearbox"}
	fsys := trial.Files(trial.Card(`
stages:
  axle: system brakes
  lights: system lighting
  plain: nothing
due checks:
  tow-test: after electrical, lighting; minor`))
	dates := map[string]string{}
	odometer := 91000
	for i := range 3 + rng.IntN(10) {
		var front, body []string
		date := time.Date(2026, 4, 1+i*2+rng.IntN(2), 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
		if i == 0 {
			front = append(front, "parts:\n  rear-beam: needed beam; system suspension\n  lamp-left: ordered lamp; stage lights; due 2026-04-10\n  gearbox: needed gearbox; waranty")
			front = append(front, "cost: 100; for rear-beam; surcharge 30; due 2026-04-20", "stage: axle")
		} else {
			front = append(front, "stage: "+pick("axle", "lights", "plain", "plane"))
			var lines []string
			for _, p := range parts {
				if chance(3) {
					lines = append(lines, "  - "+p+": "+pick("needed", "ordered", "arrived", "fitted", "refitted", "returned", "fited")+" x"+pick("", "; used", "; estimate 1 2 3", "; due 2026-04-15", "; system lighting", "; private"))
				}
			}
			if len(lines) > 0 {
				front = append(front, "parts:\n"+strings.Join(lines, "\n"))
			}
			if chance(4) {
				front = append(front, "credit: "+pick("10", "30", "31")+"; as surcharge; for rear-beam")
			}
		}
		if chance(2) {
			odometer += rng.IntN(60)
			front = append(front, fmt.Sprintf("odometer: %d km", odometer))
		}
		if chance(3) {
			front = append(front, "checks:\n  "+pick("alignment", "wheel-retorque", "brake-test", "lamp-aim", "tow-test", "own-check")+": "+pick("passed", "failed", "done")+" x"+pick("", "; at 91080 km", "; by me"))
		}
		if chance(3) {
			front = append(front, "readings:\n  disc: "+pick("8.7", "7.9", "8.0")+" mm"+pick("", "; min 8 mm", "; min 8 mm; dangerous", "; min 9 km"))
		}
		for range rng.IntN(6) {
			id := ids[rng.IntN(len(ids))]
			clauses := pick("", "", "; minor", "; dangerous", "; due 2026-04-12", "; due 40 km", "; takes 1h", "; system fuel", "; stage lights", "; private", "; disclose", "; mayor",
				"; waits for rear-beam", "; waits for lamp-left; waits for rear-beam")
			switch rng.IntN(7) {
			case 0, 1:
				body = append(body, "- [ ] "+pick("temporary", "job", "inspect", "decide")+" "+id+": opened"+clauses)
			case 2:
				body = append(body, "- [x] "+id+": cleared"+clauses)
			case 3:
				body = append(body, "- [ ] "+id+": said"+clauses)
			case 4:
				body = append(body, "- [ ] again "+id+": again"+clauses)
			case 5:
				body = append(body, "- ["+pick("x", " ")+"] job "+id+": at once"+clauses)
			case 6:
				body = append(body, "- ["+pick("x", " ")+"] "+pick("plain words", "rear-beam-surcharge: said", "temporary: tape")+clauses)
			}
		}
		if chance(4) {
			body = append(body, "\n```scan abs\n"+pick("C0035 wheel", "C0036", "no faults", "C0035\nC0036")+"\n```")
		}
		name := date + ".md"
		dates[name] = date
		fsys[name] = &fstest.MapFile{Data: []byte("---\n" + strings.Join(front, "\n") + "\n---\n" + strings.Join(body, "\n") + "\n")}
	}
	return fsys, dates
}
