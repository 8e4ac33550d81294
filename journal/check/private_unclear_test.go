package check

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/problem"
)

// places to say it in, with % for the words.
var askingPlaces = []string{
	"---\ncost: 40.00 fuel to Bram, %\n---\n", "---\ntime: 1h in the yard – %\n---\n", "---\ntime:\n  - 1h in the yard (%)\n---\n", "---\ncost: 40.00 fuel %; from Tidewell\n---\n",
	"---\ncost: 40.00 fuel; from Tidewell, %\n---\n", "---\ncost: 40.00 fuel; receipt 20411 (%); from Tidewell\n---\n", "---\ncredit: 4.00 mirror sold on – %\n---\n", "---\nsold: 4100 to Bram, %\n---\n",
	"---\nsold: 4100; to Bram, %\n---\n", "---\ntitle: The beam, %\n---\n", "---\nparts:\n  hub: needed hub (%)\n---\n", "---\nparts:\n  hub: needed hub; number 12 (%)\n---\n",
	"---\nchecks:\n  lamp-aim: done, %\n---\n", "---\nchecks:\n  lamp-aim: done; by Bram, %\n---\n", "---\nreadings:\n  disc: 8.7 mm left, %\n---\n", "---\nremaining:\n  body: 100 %\n---\n", "---\nodometer: 91252 mi %\n---\n", "---\nstage: body, %\n---\n",
	"- [ ] job door-leak: look at the seal, %\n", "- [ ] look at the seal (%)\n", "- [x] temporary door-tie: tied shut; major; waits for hub, %\n", "- [ ] look at the seal\n  and the sill – %\n",
	"# The beam, %\n", "- Bram took 400, %\n", "> - Bram took 400 – %\n", "| a | b |\n|---|---|\n| Bram | took 400, % |\n", "Bram took 400. (%)\n", "% – Bram took 400.\n", "Bram took 400.\n\n%\n", "> Bram took 400\n> (%).\n",
	"-- notes/2026-04-11 %.md --\nWords.\n",
	"-- build.md --\n---\nbuild: Halden %\ncurrency: GBP\n---\n", "-- build.md --\n---\nbuild: Halden\ncurrency: GBP\nvehicle:\n  colour: red, %\n---\n", "-- build.md --\n---\nbuild: Halden\ncurrency: GBP\nvehicle:\n  keeper (%): Bram\n---\n",
	"-- build.md --\n---\nbuild: Halden\ncurrency: GBP\n---\nThe keeper is Bram (%).\n", "-- plan.md --\n---\npage: The plan, %\n---\n", "-- plan.md --\n---\npage: The plan\n---\n## Where, %\n",
}

// stops tells whether a build would not be published for the public as it is.
func stops(found []problem.Problem) bool {
	return slices.ContainsFunc(found, func(p problem.Problem) bool {
		return p.Severity == problem.Error || p.Severity == problem.Warning && Named(p.Check).Stops
	})
}

// Wherever it is said that something is private, and however, it hides it or stops.
func TestPrivateUnclear(t *testing.T) {
	for _, place := range askingPlaces {
		for _, words := range requests {
			if strings.HasSuffix(place, "%.md --\nWords.\n") && strings.ContainsAny(words, "/?") {
				continue
			}
			text := strings.Replace(place, "%", words, 1)
			if found := proofread(t, folder(text)); !stops(found) {
				t.Errorf("it would be shown: %q\n%s", text, printed(t, found))
			}
		}
		for _, words := range honest {
			text := strings.Replace(place, "%", words, 1)
			if got := problemsOf(t, "private-unclear", text); len(got) > 0 {
				t.Errorf("%q: %s", text, got)
			}
		}
	}
}

// What is hidden already, is code or an address, or is settled, is left alone.
func TestPrivateClear(t *testing.T) {
	for _, text := range []string{
		"---\ncost: 40.00 fuel, private; from Tidewell; private\n---\n", "---\nprivate: yes\ncost: 40.00 fuel, private\n---\n# Private\nPrivate: not for the public.\n",
		"- [ ] look at the seal, private; private\n\n  (private)\n", "- [ ] job door-leak: private; private\n- [ ] door-leak: keep it private; private\n", "<!-- private -->\n", "Set `private` there: `(private)`.\n",
		"```\nprivate\n```\n", "    private\n", "[the rules](https://example.org/private) and [more](private.md) at https://example.org/private\n-- private.md --\n",
		"---\ncost: 40.00 fuel, private; sure\n---\n", "---\ntitle: Private; sure\n---\n", "- [ ] look at the seal\n  (private); sure\n", "---\ncost: 40.00 fuel; receipt photos/private.jpg\n---\n", "---\nprivate: no\n---\n",
	} {
		found := slices.DeleteFunc(proofread(t, folder("-- 2026-04-11.md --\n"+text)), func(p problem.Problem) bool { return p.Severity == problem.Information })
		if slices.ContainsFunc(found, func(p problem.Problem) bool { return p.Check == "private-unclear" }) {
			t.Errorf("%q\n%s", text, printed(t, found))
		}
	}
	for _, key := range []string{"private: true", "private: yes please", "private: Yes", "Private: yes", "public: no", "private:", "private: 'no, not'", "private: yes\nprivate: no", "confidential: yes", "privat: yes"} {
		for _, file := range []string{"2026-04-12", "plan", "build"} {
			head := map[string]string{"plan": "page: Plan\n", "build": "build: Halden\ncurrency: GBP\n"}[file]
			if found := proofread(t, folder("-- "+file+".md --\n---\n"+head+key+"\n---\nWords.\n")); !stops(found) {
				t.Errorf("%s: %s would be shown", file, key)
			}
		}
	}
}

// Requests are found wherever chance puts them among honest words.
func TestPrivateAmongWords(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	one := func(list []string) string { return list[chance.IntN(len(list))] }
	joints := []string{", ", ". ", " - ", " – ", ": ", "; ", " ("}
	for range 20_000 {
		text := one(honest) + one(joints) + one(requests)
		if chance.IntN(2) == 0 {
			text = one(honest) + one(joints) + text
		}
		if _, _, found := askedIn(text, false); !found {
			t.Fatalf("not found: %q", text)
		}
		if start, end, found := askedIn(one(honest)+one(joints)+one(honest), false); found {
			t.Fatalf("found %d to %d", start, end)
		}
	}
}

// What may ask is found by bytes as the plain pattern would find it.
func TestMayAsk(t *testing.T) {
	pattern := regexp.MustCompile(`(?i)priv|confidential|publi|[\x{ad}\x{17f}\x{300}-\x{5ff}\x{200b}-\x{200f}\x{2060}\x{feff}\x{ff00}-\x{ffef}\x{1d400}-\x{1d7ff}]`)
	pieces := []string{"private", "PRIVATE", "Publish", "publ", "public", "confidential", "Confident", "priv", "ate", " ", "p", "é", "\u00ad", "\u2010", "\u200b", "ｐ", "𝐩", "\xff", "п", "车", "\n"}
	random := rand.New(rand.NewPCG(1, 2))
	for range 20_000 {
		var text strings.Builder
		for range random.IntN(6) {
			text.WriteString(pieces[random.IntN(len(pieces))])
		}
		if got, want := mayAsk([]byte(text.String())), pattern.MatchString(text.String()); got != want {
			t.Fatalf("%q may ask: %v, want %v", text.String(), got, want)
		}
	}
}
