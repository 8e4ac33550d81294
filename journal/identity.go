package journal

import (
	"slices"
	"strings"

	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
)

// Parts, snags and what follows by itself share one name space, so that
// `waits for` and a tick mean one thing.

// An identity is what an id of the build names.
type identity struct {
	sort  string      // part, snag, or what a derived item comes from
	span  source.Span // where it was first named
	stage string      // a part's, as far as its lines name one
}

const (
	partSort = "part"
	snagSort = "snag"
)

func (b *Build) isPart(id string) bool {
	known := b.ids[id]
	return known != nil && known.sort == partSort || b.badID[id]
}

// taken returns what other than a snag has the id, or nil.
func (b *Build) taken(id string) *identity {
	if i := b.ids[id]; i != nil && i.sort != snagSort {
		return i
	}
	return nil
}

// partIDs are the ids of all parts, in order.
func (b *Build) partIDs() []string {
	return b.sorted(func(i *identity) bool { return i.sort == partSort })
}

// allIDs are the ids of everything that has one, in order.
func (b *Build) allIDs() []string { return b.sorted(func(*identity) bool { return true }) }

func (b *Build) sorted(keep func(*identity) bool) []string {
	var list []string
	for id, i := range b.ids {
		if keep(i) {
			list = append(list, id)
		}
	}
	slices.Sort(list)
	return list
}

// nearID returns the known id that a word is a letter or two from, or "". A word
// without a hyphen is taken as an ordinary word unless only the hyphens differ.
func (b *Build) nearID(word string) string {
	lower := strings.ToLower(word)
	if !strings.Contains(lower, "-") {
		for id := range b.ids {
			if strings.Contains(id, "-") && strings.ReplaceAll(id, "-", "") == strings.ReplaceAll(lower, "_", "") {
				return id
			}
		}
		return ""
	}
	if b.ids[lower] != nil {
		return lower
	}
	return near.Nearest(lower, b.allIDs())
}

// declareDerived takes in the ids of what follows by itself from lines that are
// sound: surcharges to settle, readings and scans. The checks of the table of
// checks due are reserved as a whole.
func (b *Build) declareDerived() {
	add := func(id, sort string, at source.Span) {
		if b.ids[id] == nil {
			b.ids[id] = &identity{sort: sort, span: at}
		}
	}
	for _, r := range b.DueRules() {
		add(r.Name, "check", source.Span{})
	}
	for _, s := range b.Sessions {
		for _, l := range s.Note.Lines {
			if l.Bad {
				continue
			}
			switch l.Kind.Key {
			case "cost":
				if part, ok := note.Arg[string](l, "for"); ok && l.Has("surcharge") {
					add(SurchargeID(part), "surcharge", l.Clause("surcharge").Span)
				}
			case "readings":
				add("reading-"+l.Name, "reading", l.NameSpan)
			}
		}
		for _, sc := range s.Note.Scans {
			for _, c := range sc.Codes {
				add(ScanID(sc.Name, c.Code), "scan", c.Span)
			}
		}
	}
}

// SurchargeID is the id of the item that a surcharge on a part opens.
func SurchargeID(part string) string { return part + "-surcharge" }

// ScanID is the id of the item that a fault code opens.
func ScanID(unit, code string) string { return "scan-" + unit + "-" + code }
