package check

import (
	"testing"
)

// What asks for privacy in a line, item or heading, and what is found in it.
var requests = []string{
	"private", "Private", "PRIVATE", "private!", "private.", "private?!", "(private)", "[private]", "{private}", "“private”", "'private'", "**private**", "_private_", "~~private~~",
	"(private for now)", "- private", "– keep private", "— not public", "not public", "Not Public!", "not for the public", "not for the buyer", "don't tell the buyer", "Do not show any buyer!", "not for buyers please", "not for publication", "do not publish", "don't publish this",
	"private note", "Private: Del's", "private, please", "keep it private", "keep this private for now", "strictly private", "strictly private matter", "this is private", "is private",
	"must stay private", "private until it is sold", "private and confidential", "confidential", "(CONFIDENTIAL)", "#private", "@private", "private/do not show", "non-public", "keep-private",
	"ｐｒｉｖａｔｅ", "рrivate", "pri\u200bvate", "priva\u00adte", "𝐩𝐫𝐢𝐯𝐚𝐭𝐞", "not\u00a0public", "private\u00a0for now", "*private* (Del)", "not to be public", "priv", "(priv.)", "keep it priv", "private :)", "→ private", "private 🤫", "private;", "not public yet",
}

// What does not, though the words are there.
var honest = []string{
	"a private seller", "bought from a private seller", "private seller", "from private sellers", "private car park", "private sale", "the private plate", "private road", "sold private",
	"in private", "bought private", "on private land", "Private hire plate", "semi-private yard", "part-private", "a *private* seller", "a **private** one", "not private", "isn't private",
	"privately", "privateer", "for the buyer", "not the buyer's fault", "no buyer yet", "told the buyer", "not the buyer who came", "not what a buyer wants", "deprivated", "public road", "not a public road", "not public roads", "the public", "private-plate retained", "private_key", "private.jpg", "keep private plate",
	"public transport", "published torque", "maker does not publish torque figures", "photos/private/a.jpg", "privat", "privacy glass", "confidentially", "a private, cash buyer", "paid to private individual",
}

func TestAsking(t *testing.T) {
	for _, before := range []string{"", "wing from Del ", "wing from Del, ", "wing. ", "40 bolts - "} {
		for _, text := range requests {
			if _, _, found := askedIn(before+text, false); !found {
				t.Errorf("not found: %q", before+text)
			}
		}
		for _, text := range honest {
			if start, end, found := askedIn(before+text, false); found {
				t.Errorf("%q is found in %q", (before + text)[start:end], before+text)
			}
		}
	}
	for text, want := range map[string]bool{
		"Private: Del took 400 in cash.": true, "private note: he drinks": true, "Keep this private. He drinks.": true, "Del took 400. Keep it private.": true, "Del took 400 (private).": true,
		"Del took 400 **private**.": true, "**Private**": true, "Not public yet, but he took 400.": true, "Del took 400, private.": true, "He took 400 (not for the public) in cash": true,
		"Del took 400\n\n": false, "The lane is private, so we asked.": false, "The lane\nis private.": false, "A quiet, private, gated yard.": false, "It is a private lane.": false, "He is a **private** seller.": false,
		"Private parking at the unit.": false, "Sold private, no warranty.": false, "He said the price is not public.": false, "> Private lane": false, "He keeps it private that the sill is rotten": false,
	} {
		if _, _, found := askedIn(text, true); found != want {
			t.Errorf("prose: %v, want %v: %q", found, want, text)
		}
	}
}
