package check

import (
	"bufio"
	"cmp"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"guidecoat/journal/aloud"
	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
	"guidecoat/journal/trial"
)

// The two corpora in testdata were typed by people who had not read the manual and had
// seen one short note. Tired lines deviate as a tired person's do; honest ones are right
// by their heads, with descriptions as odd as real ones. Each has the meaning that its
// writer gave it; `ask` marks what no reader could be sure of.

// A typedLine is one line of a corpus.
type typedLine struct {
	Key, Line string
	Means     meaning
}

type meaning struct {
	Ask                             bool
	Minutes                         *int
	Stage, Amount, Supplier, Part   string
	Category, Receipt, State, Check string
	Result, Reading, Value, Kind    string
	Severity, ID, Does              string
	Outside                         *bool
}

const corpusCard = "vat: 20%\nstages:\n  strip and assess:\n  rear axle: budget 260 340 520; system suspension\n  electrical: system electrical\n  body: system body"

const corpusBefore = `-- 2026-05-09.md --
---
stage: rear axle
odometer: 91252 mi
cost:
  - 9 copper grease; from Tidewell Dismantlers
  - 12 sandpaper; from Harnwick Motor Stores
  - 900 a week of small things
  - 138 beam; for rear-beam
  - 138 caliper; for caliper-right
  - 138 ring; for abs-ring-left
  - 138 lamp; for tail-lamp-left
  - 138 rubbers; for exhaust-rubber
parts:
  rear-beam: arrived rear axle beam
  caliper-right: ordered caliper, right; system brakes
  abs-ring-left: needed reluctor ring, left rear; system brakes
  tail-lamp-left: needed left tail lamp; system lighting
  exhaust-rubber: ordered rubber mount; system exhaust
---
# Before

- [ ] temporary exhaust-hanger: hung on wire until the rubber comes
- [ ] brake-hose: look it over; minor
- [ ] tow-socket: rewire it
- [ ] look at the boot seal
- [ ] order two wheel bolts

`

// read reads one line in a note of its own, and what is said of it.
func (l typedLine) read(t *testing.T) (*aloud.Line, []problem.Problem) {
	t.Helper()
	front, body := "stage: rear axle\nodometer: 91260 mi", "# After\n"
	switch l.Key {
	case "time", "cost", "credit":
		front += "\n" + l.Key + ":\n  - " + l.Line
	case "item":
		body += "\n" + l.Line + "\n"
	default:
		front += "\n" + l.Key + ":\n  " + l.Line
	}
	b := trial.Compile(t, trial.Card(corpusCard)+corpusBefore+trial.Session("2026-05-16.md", front, body))
	st := state.At(b, 0, trial.Day("2026-05-16"))
	var said []problem.Problem
	for _, p := range Run(st, problem.Warning) {
		if p.Span.File.Path == "2026-05-16.md" {
			said = append(said, p)
		}
	}
	key := l.Key
	if key == "item" {
		key = "snag"
	}
	for _, read := range aloud.Of(st, []string{"public", "buyer"}) {
		if read.File() == "2026-05-16.md" && read.Key == key {
			return read, said
		}
	}
	return &aloud.Line{LeftOut: true}, said
}

// differs says in what the reading is not the meaning; "" where it is.
func (m meaning) differs(read *aloud.Line) string {
	r := read.Reading
	if read.LeftOut {
		return "left out"
	}
	var wrong []string
	want := func(what, want, got string) {
		if want != "" && !strings.EqualFold(want, got) {
			wrong = append(wrong, fmt.Sprintf("%s %q, not %q", what, got, want))
		}
	}
	begins := func(what, want string) {
		if want != "" && !strings.HasPrefix(read.Words, want) {
			wrong = append(wrong, fmt.Sprintf("%s in %q, not %q", what, read.Words, want))
		}
	}
	if m.Minutes != nil && *m.Minutes != r.Minutes {
		wrong = append(wrong, fmt.Sprintf("%d minutes, not %d", r.Minutes, *m.Minutes))
	}
	want("stage", m.Stage, r.Stage)
	want("amount", m.Amount, r.Amount)
	want("supplier", m.Supplier, r.Supplier)
	want("part", m.Part, r.Part)
	want("category", m.Category, r.Category)
	if m.Receipt != "" && !strings.Contains(read.Words, "receipt "+m.Receipt) {
		wrong = append(wrong, "no receipt "+m.Receipt)
	}
	begins("state", m.State)
	if m.Result == "none" {
		want("cleared", "nothing", cmp.Or(r.Clears, "nothing"))
	} else {
		begins("result", m.Result)
	}
	if q, _, bad := measure.ScanQuantity(m.Value); m.Value != "" && bad == nil {
		begins("value", q.String()+aloud.Between)
	}
	if m.Outside != nil && *m.Outside != strings.Contains(read.Words, "opens reading-") {
		wrong = append(wrong, fmt.Sprintf("outside its limits: %v, not %v", !*m.Outside, *m.Outside))
	}
	want("kind", m.Kind, r.Kind)
	want("severity", m.Severity, r.Severity)
	want("id", m.ID, r.ID)
	switch m.Does {
	case "opens":
		if r.Opens == "" || r.Clears != "" {
			wrong = append(wrong, "opens nothing")
		}
	case "clears":
		if r.Clears == "" {
			wrong = append(wrong, "clears nothing")
		}
	case "nothing":
		if r.Opens != "" || r.Clears != "" {
			wrong = append(wrong, "does something")
		}
	}
	return strings.Join(wrong, "; ")
}

func corpus(t *testing.T, name string) []typedLine {
	t.Helper()
	f, err := os.Open("testdata/" + name + ".jsonl")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var list []typedLine
	for s := bufio.NewScanner(f); s.Scan(); {
		var l typedLine
		if err := json.Unmarshal(s.Bytes(), &l); err != nil {
			t.Fatalf("%s: %v", s.Text(), err)
		}
		list = append(list, l)
	}
	return list
}

func TestTiredLines(t *testing.T) {
	right, told, silent, asked, guessed := 0, 0, 0, 0, 0
	lines := corpus(t, "tired")
	for _, l := range lines {
		read, said := l.read(t)
		wrong := l.Means.differs(read)
		switch {
		case l.Means.Ask && len(said) > 0:
			asked++
		case l.Means.Ask:
			guessed++
			t.Logf("guessed: %s %s\n   %s", l.Key, l.Line, read.Words)
		case wrong == "" && len(said) == 0:
			right++
		case len(said) > 0:
			told++
		default:
			silent++
			t.Logf("silent: %s %s\n   %s (%s)", l.Key, l.Line, wrong, read.Words)
		}
	}
	if all := len(lines) + len(corpus(t, "honest")); silent*100 > all {
		t.Errorf("%d of %d lines are misread in silence", silent, all)
	}
	t.Logf("%d lines: %d right, %d told, %d silent; unsure: %d asked, %d guessed", len(lines), right, told, silent, asked, guessed)
}

func TestHonestLines(t *testing.T) {
	right, alarms, misread := 0, 0, 0
	lines := corpus(t, "honest")
	for _, l := range lines {
		read, said := l.read(t)
		wrong := l.Means.differs(read)
		switch {
		case len(said) > 0:
			alarms++
			t.Logf("alarm: %s %s\n   %s: %s %s", l.Key, l.Line, said[0].Check, said[0].Message, said[0].Help)
		case wrong != "":
			misread++
			t.Logf("misread: %s %s\n   %s (%s)", l.Key, l.Line, wrong, read.Words)
		default:
			right++
		}
	}
	if alarms*300 > len(lines) || misread > 0 {
		t.Errorf("%d of %d honest lines draw a warning, %d are misread", alarms, len(lines), misread)
	}
	t.Logf("%d lines: %d right, %d alarms, %d misread", len(lines), right, alarms, misread)
}
