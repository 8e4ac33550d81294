package server

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/state"
)

// An offer is a word that may stand at a place.
type offer struct {
	text   string // what is typed for it
	kind   int
	detail string
	about  string
}

// patience is how long completion waits for the newest keystroke to be understood. Names
// that were there before it are offered in any case.
const patience = 12 * time.Millisecond

// mostOffers is how many are told at once. More are told of as the word grows.
const mostOffers = 200

func (s *server) complete(p placeParams) (any, error) {
	list := completionList{Items: []completionItem{}}
	d, ok := s.file(p.Document.URI)
	if !ok {
		return list, nil
	}
	at := d.spot(d.name, d.offset(p.Position))
	if at.part == nowhere {
		return list, nil
	}
	r := d.folder.soon(s.today(), patience)
	offers := at.offers(r, d.lines, s.today().String())
	if list.IsIncomplete = len(offers) > mostOffers; list.IsIncomplete {
		typed := strings.ToLower(at.typed)
		offers = slices.DeleteFunc(offers, func(o offer) bool { return !strings.Contains(strings.ToLower(o.text), typed) })
		offers = offers[:min(len(offers), mostOffers)]
	}
	where := d.between(at.start, at.start+len(at.typed))
	for i, o := range offers {
		label := strings.TrimRight(strings.SplitN(o.text, "\n", 2)[0], ": ")
		list.Items = append(list.Items, completionItem{Label: label, Kind: o.kind, Detail: o.detail, Documentation: o.about,
			SortText: fmt.Sprintf("%04d", i), FilterText: label, TextEdit: textEdit{where, o.text}})
	}
	return list, nil
}

// offers are the words that may stand at the spot, the likeliest first.
func (s spot) offers(r *reading, text *lines, today string) []offer {
	switch s.part {
	case atKey:
		return s.keys(text)
	case atName:
		return s.names(r)
	case atHead:
		if s.kind.Key == "stage" {
			return r.stages()
		}
		return values(s.kind.Head, r, today)
	case atClause:
		return s.keywords()
	case atValue:
		return values(s.clause.Value, r, today)
	case atItem:
		return s.items(r)
	case atFence:
		list := pick.Map(r.namesOf(aUnit), func(name offer) offer { return offer{"scan " + name.text, completeReference, "fault codes", ""} })
		return append(list, offer{"scan ", completeKeyword, "fault codes", "the name of the control unit follows"})
	}
	return nil
}

// keys are those that the file does not have yet.
func (s spot) keys(text *lines) []offer {
	var list []offer
	for _, k := range s.kinds {
		if strings.Contains(text.text, "\n"+k.Key+":") {
			continue
		}
		behind := map[note.Shape]string{note.One: ": ", note.Many: ":\n  - ", note.Named: ":\n  "}[k.Shape]
		list = append(list, offer{k.Key + behind, completeField, "", k.About})
	}
	return list
}

// keywords are the clauses that the line does not have yet.
func (s spot) keywords() []offer {
	has, groups := map[string]bool{}, map[string]bool{}
	for _, piece := range strings.Split(s.line[len(s.typed):], ";") {
		if c := s.kind.Begun(strings.TrimSpace(piece)); c != nil {
			has[c.Word], groups[c.Group] = true, c.Group != ""
		}
	}
	var list []offer
	for _, c := range s.kind.Clauses {
		if has[c.Word] && !c.Repeat || groups[c.Group] {
			continue
		}
		o := offer{c.Word, completeKeyword, "", c.About}
		if c.Value != nil && !c.Optional {
			o.text += " "
			o.detail = c.Value.Name
		}
		list = append(list, o)
	}
	return list
}

// names are those that a named line may begin with.
func (s spot) names(r *reading) []offer {
	var list []offer
	switch s.kind.Key {
	case "parts":
		list = r.parts(nil)
	case "checks":
		list = r.checks()
	case "readings":
		list = r.namesOf(aReading)
	case "remaining":
		list = r.stages()
	}
	for i := range list {
		list[i].text += ": "
	}
	return list
}

// values are those that a value may have.
func values(v *note.Value, r *reading, today string) []offer {
	if v == nil {
		return nil
	}
	switch v.Name {
	case "STAGE":
		return r.stages()
	case "SUPPLIER":
		return r.namesOf(aSupplier)
	case "PART":
		return r.parts(nil)
	case "ID":
		return slices.Concat(r.parts((*state.Part).Waited), r.open(false), r.parts(func(p *state.Part) bool { return !p.Waited() }))
	case "nothing or CHECK, CHECK":
		return append(r.checks(), offer{"nothing", completeKeyword, "asks for no check", ""})
	case "FILE", "REF-OR-FILE":
		return r.files()
	case "DATE":
		return []offer{{today, completeValue, "today", ""}}
	}
	return pick.Map(v.Near, func(word string) offer { return offer{word, completeEnum, "", ""} })
}

// items are what may follow a box: ticked, what is open; else also what begins an item.
func (s spot) items(r *reading) []offer {
	if words := strings.Fields(s.typed); len(words) > 1 || len(words) == 1 && strings.HasSuffix(s.typed, " ") {
		return nil
	}
	list := r.open(true)
	if s.ticked {
		return list
	}
	kinds := pick.Map(note.Kinds, func(k string) offer { return offer{k + " ", completeKeyword, "a snag of this kind", ""} })
	return append(append(kinds, offer{"again ", completeKeyword, "opens one again", ""}), list...)
}

// known is the state, an empty one where there is none.
func (r *reading) known() *state.State {
	return cmp.Or(r.state, &state.State{Build: &journal.Build{}})
}

func (r *reading) stages() []offer {
	return pick.Map(r.known().Build.Stages, func(st *journal.Stage) offer { return offer{st.Name, completeModule, st.System, ""} })
}

// parts are those that are wanted, all for nil, the newest first.
func (r *reading) parts(wanted func(*state.Part) bool) []offer {
	var list []offer
	for _, p := range slices.Backward(r.known().Parts) {
		if wanted == nil || wanted(p) {
			list = append(list, offer{p.ID, completeReference, p.State + " · " + p.Description, ""})
		}
	}
	return list
}

// open are the snags that are: as items begin, or their ids.
func (r *reading) open(item bool) []offer {
	var list []offer
	for _, s := range r.known().Snags {
		if !s.Open || item && s.Source != fact.FromNote && s.Source != fact.FromSurcharge {
			continue
		}
		o := offer{s.ID, completeEvent, s.Severity.String() + " · " + s.PlainWords(), ""}
		switch {
		case item && s.ID == "":
			o.text = s.Words
		case item:
			o.text += ": "
		case s.ID == "":
			continue
		}
		list = append(list, o)
	}
	return list
}

// checks are those that are due or failed, then all others.
func (r *reading) checks() []offer {
	var list []offer
	seen := map[string]bool{}
	add := func(name, detail string) {
		if name != "" && !seen[name] {
			seen[name], list = true, append(list, offer{name, completeEvent, detail, ""})
		}
	}
	for _, s := range r.known().Snags {
		if s.Open && (s.Source == fact.FromDue || s.Source == fact.FromCheck) {
			add(s.ID, s.Severity.String()+" · "+s.PlainWords())
		}
	}
	if r.state != nil {
		for _, rule := range r.state.Build.DueRules() {
			add(rule.Name, rule.Because)
		}
		for _, c := range slices.Backward(r.state.Build.Checks) {
			add(c.Name, c.Result)
		}
	}
	return list
}

// namesOf are the names of a sort, those that are named most often first.
func (r *reading) namesOf(sort sort) []offer {
	times := map[string]int{}
	for _, m := range pick.Where(r.mentions(), func(m mention) bool { return m.sort == sort }) {
		times[m.name]++
	}
	list := sorted(times)
	slices.SortStableFunc(list, func(a, b string) int { return -cmp.Compare(times[a], times[b]) })
	return pick.Map(list, func(name string) offer { return offer{name, completeConstant, "", ""} })
}

// files are those of the build that are no notes.
func (r *reading) files() []offer {
	others := pick.Where(sorted(r.known().Build.Files), func(name string) bool { return !strings.HasSuffix(name, ".md") })
	return pick.Map(others, func(name string) offer { return offer{name, completeFile, "", ""} })
}
