package manual

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"
)

// Every example of the manual is proofread. What it is stands behind the marks of its
// fence:
//
//	note      a note: all of it, some keys with their lines, or some of its body
//	card      a job card, all of it or some keys; garage: likewise a garage.md
//	sh        commands, one a line
//	text      anything else, which is not looked at
//
// Behind "wrong NAME" stands an example that must get the problem of that name. Those
// of one section are the notes of one build, a day apart, so that a later one may speak
// of what an earlier one began.
type example struct {
	kind, wrong, text string
	where             string
}

var fences = regexp.MustCompile("(?ms)^(````?)([a-z]+)(?: wrong ([a-z-]+))?\n(.*?)\n````?$")

func examplesOf(t *testing.T, where, text string) (list []example) {
	t.Helper()
	for _, m := range fences.FindAllStringSubmatch(text, -1) {
		list = append(list, example{m[2], m[3], m[4] + "\n", where})
	}
	if marks := strings.Count("\n"+text, "\n```"); strings.Count("\n"+text, "\n````") == 0 && marks != 2*len(list) {
		t.Errorf("%s: %d marks of fences, %d examples", where, marks, len(list))
	}
	return list
}

var (
	hasKey        = func(text, key string) bool { return regexp.MustCompile(`(?m)^` + key + `:`).MatchString(text) }
	beginsWithKey = regexp.MustCompile(`^[a-z ]+:`)
	photo         = regexp.MustCompile(`photos/[\w./-]+`)
)

// context is what the examples of a section have around them.
const context = "build: Halden hatchback\ncurrency: GBP\nvat: 20%\nrates:\n  EUR: 0.86\n"

// whole makes a file of an example: its front matter gets the keys it does not show.
func (e example) whole(day int) (name, text string) {
	front, body := "", e.text
	if rest, ok := strings.CutPrefix(e.text, "---\n"); ok {
		front, body, _ = strings.Cut(rest, "\n---\n")
		front += "\n"
	} else if beginsWithKey.MatchString(e.text) {
		front, body = e.text, ""
	}
	add := func(key, lines string) {
		if !hasKey(front, key) {
			front = lines + front
		}
	}
	switch e.kind {
	case "garage":
		return "../garage.md", e.text
	case "card":
		for _, key := range []string{"vat", "currency", "build"} {
			add(key, regexp.MustCompile(`(?m)^`+key+`: .*\n`).FindString(context))
		}
		return journal.CardName, "---\n" + front + "---\n" + body
	}
	add("stage", "stage: rear axle\n")
	date := time.Date(2026, 4, day, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
	if m := regexp.MustCompile(`(?m)^date: (\S+)`).FindStringSubmatch(front); m != nil {
		date = m[1]
	}
	return date + ".md", "---\n" + front + "---\n" + body
}

// proofread returns what is wrong with the examples of a section, by their number.
func proofread(t *testing.T, list []example) map[int][]problem.Problem {
	t.Helper()
	pixels, err := os.ReadFile("../../../example-build/photos/disc-gauge.jpg")
	if err != nil {
		t.Fatal(err)
	}
	fsys := fstest.MapFS{journal.CardName: {Data: []byte("---\n" + context + "---\n")}}
	of := map[string]int{}
	garage := false
	for i, e := range list {
		for _, p := range photo.FindAllString(e.text, -1) {
			fsys[p] = &fstest.MapFile{Data: pixels}
		}
		name, text := e.whole(11 + i)
		if _, taken := of[name]; taken {
			t.Errorf("%s: two examples are %s", e.where, name)
		}
		if e.kind == "garage" {
			garage, name = true, journal.GarageName
		}
		fsys[name], of[name] = &fstest.MapFile{Data: []byte(text)}, i
	}
	var found []problem.Problem
	if garage {
		delete(fsys, journal.CardName)
		g, err := journal.ReadGarage(fsys)
		if err != nil {
			t.Fatal(err)
		}
		found = check.RunGarage(g, problem.Warning)
	} else {
		b, err := journal.ReadBuild(fsys, ".")
		if err != nil {
			t.Fatal(err)
		}
		found = check.Run(state.At(b, 0, 20260601), problem.Warning)
	}
	by := map[int][]problem.Problem{}
	for _, p := range found {
		i, ok := of[p.Span.File.Path]
		if !ok {
			t.Errorf("%s: %s: %s: %s", list[0].where, path.Base(p.Span.File.Path), p.Check, p.Message)
		}
		by[i] = append(by[i], p)
	}
	return by
}

// hold proofreads examples: a good one has no problem, a wrong one has the one it names.
func hold(t *testing.T, list []example) {
	t.Helper()
	good := slices.DeleteFunc(slices.Clone(list), func(e example) bool { return e.wrong != "" })
	for i, found := range proofread(t, good) {
		for _, p := range found {
			t.Errorf("%s: %s: %s\n%s", good[i].where, p.Check, p.Message, good[i].text)
		}
	}
	for i, e := range list {
		if e.wrong == "" {
			continue
		}
		found := proofread(t, list[i:i+1])[0]
		if len(found) != 1 || found[0].Check != e.wrong {
			t.Errorf("%s: not %s but %v\n%s", e.where, e.wrong, found, e.text)
		}
	}
}

func TestExamples(t *testing.T) {
	n := 0
	for _, topic := range Topics() {
		for _, s := range topic.Sections {
			var notes []example
			for _, e := range examplesOf(t, topic.Name+", "+s.Title, s.Text) {
				if n++; e.kind != "sh" && e.kind != "text" {
					notes = append(notes, e)
				}
			}
			if len(notes) > 0 {
				hold(t, notes)
			}
		}
	}
	if n < 60 {
		t.Errorf("only %d examples were found", n)
	}
}

func readme(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

var tableRow = regexp.MustCompile("(?m)^\\| (.*?) \\| `(.*?)` \\| `(.*)` \\|$")

// The README's table of what happened and what to write is one build: each row is a
// line of a note of its own, later than the row above.
func TestReadmeRows(t *testing.T) {
	_, rest, _ := strings.Cut(readme(t), "\n## What happened, what to write\n")
	section, _, _ := strings.Cut(rest, "\n## ")
	// The card has the stages of the one that `guidecoat note --build` makes.
	rows := []example{{kind: "card", text: "fees:\n  buyer's fee: 12%\nstages:\n  buying: purchase\n  rear axle: system suspension\n", where: "README, card"}}
	for _, m := range tableRow.FindAllStringSubmatch(section, -1) {
		text := m[3]
		switch m[2] {
		case "item", "body":
		case "sold":
			text = m[2] + ": " + text + "; sure" // the rows above leave a brake pipe rusty
		case "odometer":
			text = m[2] + ": " + text
		default:
			text = m[2] + ":\n  " + text
		}
		rows = append(rows, example{kind: "note", text: text + "\n", where: "README, " + m[1]})
	}
	if lines := strings.Count(section, "\n| ") - strings.Count(section, "\n| **") + 1; len(rows) != lines || len(rows) < 40 {
		t.Errorf("%d rows of %d lines are read", len(rows), lines)
	}
	hold(t, rows)
}

// What somebody new types first is right as it stands.
func TestReadmeFirstNote(t *testing.T) {
	list := examplesOf(t, "README", readme(t))
	notes := slices.DeleteFunc(list, func(e example) bool { return e.kind != "note" })
	if len(notes) == 0 {
		t.Fatal("README.md shows no note")
	}
	hold(t, notes)
}

func TestReadmeIsShort(t *testing.T) {
	if n := len(readme(t)); n > 12_000 {
		t.Errorf("README.md has %d bytes, and nobody reads more than 12,000", n)
	}
}
