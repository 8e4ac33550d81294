package render

import (
	"encoding/json"
	"strconv"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/view"
)

// What is known of the vehicle: facts for people, and for programs a block of JSON-LD, which is data and never run.

func isOdometer(name string) bool {
	return strings.EqualFold(name, "odometer") || strings.EqualFold(name, "mileage")
}

// vehicleFacts are what is known of the vehicle.
func vehicleFacts(s *site) []Fact {
	var list []Fact
	now := s.Distance(s.v.Odometer)
	words := now // what the notes say now, and what the card said once
	for _, d := range s.v.Vehicle {
		switch {
		case now == "" || !isOdometer(d.Name):
			list = append(list, s.detail(d))
		case s.Distance(d.Value) != now:
			words = s.Say("%s; on the job card: %s", words, s.Distance(d.Value))
		}
	}
	if now != "" {
		list = append(list, Fact{Name: s.Word("Odometer"), Value: words})
	}
	return list
}

// details are what few know of a vehicle's details. What follows from a category differs by country, so nothing is said.
var details = map[string]Fact{
	"category": {Name: "Salvage category", Note: "how the damaged vehicle was classed before this work, such as by an insurer; what that means differs by country, so ask locally"},
	"keepers":  {Name: "Keepers", Note: "how many people or firms it has been registered to, as the builder knows it"},
}

// detail is one detail of the vehicle for people.
func (s *voice) detail(d view.Detail) Fact {
	f := details[strings.ToLower(d.Name)]
	if f.Name == "" {
		f.Name = s.Name(strings.ToLower(d.Name[:1]) + d.Name[1:])
	}
	return Fact{title(s.Word(f.Name)), d.Value, s.Word(f.Note), true}
}

// unitCodes are those of UN/CEFACT that Schema.org names for mileages.
var unitCodes = map[string]string{"km": "KMT", "mi": "SMI"}

// vehicleOf makes it out of the details of the job card that everybody calls the same.
func vehicleOf(s *site) *vehicle {
	v := &vehicle{Context: "https://schema.org", Type: "Vehicle", Name: s.v.Name, Description: shorten(bare(s.v.About), 320), URL: s.address("index.html"),
		Condition: "https://schema.org/UsedCondition", Mileage: mileage(s.v.Odometer)}
	if s.front != nil {
		v.Image = s.address(s.front.picture.File) // "" without a base: a picture's address must be whole
	}
	category := ""
	plain := map[string]*string{"model": &v.Model, "colour": &v.Color, "color": &v.Color, "fuel": &v.Fuel, "body": &v.Body, "category": &category}
	for _, d := range s.v.Vehicle {
		switch name := strings.ToLower(d.Name); {
		case plain[name] != nil:
			*plain[name] = d.Value
		case name == "make":
			v.Brand = &brand{"Brand", d.Value}
		case name == "year":
			if _, err := strconv.Atoi(d.Value); err == nil && len(d.Value) == len("2015") {
				v.ModelDate = d.Value
			}
		case name == "vin" && !strings.ContainsRune(d.Value, '•'): // a masked one names no vehicle
			v.VIN = d.Value
		}
	}
	v.Damages = damagesOf(s, category)
	return v
}

func mileage(odometer string) *odometerValue {
	number, unit, _ := strings.Cut(odometer, " ")
	if _, err := strconv.ParseFloat(number, 64); err != nil || unitCodes[unit] == "" {
		return nil
	}
	return &odometerValue{"QuantitativeValue", json.Number(number), unitCodes[unit]}
}

// damagesTold is how many snags of a sort are told in words.
const damagesTold = 12

// damagesOf are "known damages, both repaired and unrepaired": the salvage category,
// and what was graver than minor or is left for the buyer.
//
// A check that is due or a surcharge to come back is no damage.
func damagesOf(s *site, category string) string {
	var told []string
	if category != "" && !strings.EqualFold(category, "none") {
		told = append(told, s.Say("Salvage category: %s.", category))
	}
	hit := pick.Map(s.v.Damage, func(d *view.DamageView) string { return strings.TrimSuffix(d.Place+": "+d.Words, ": ") })
	if hit != nil {
		told = append(told, s.Say("As it came: %s.", strings.Join(hit, "; ")))
	}
	list := func(label string, is func(*view.SnagView) bool) {
		all := pick.Where(s.v.Snags, func(x *view.SnagView) bool {
			return x.Source != fact.FromDue && x.Source != fact.FromFastener && x.Source != fact.FromSurcharge && is(x)
		})
		words := pick.Map(all[:min(len(all), damagesTold)], func(x *view.SnagView) string { return note.PlainWords(s.wordsOf(x)) })
		if len(all) > damagesTold {
			words = append(words, s.Say("and %d more", len(all)-damagesTold))
		}
		if words != nil {
			told = append(told, s.Word(label)+": "+strings.Join(words, "; ")+".")
		}
	}
	grave := func(x *view.SnagView) bool { return x.Severity > note.Minor }
	list("Not repaired", func(x *view.SnagView) bool { return x.Open && (grave(x) || x.Disclose) })
	told = append(told, pick.Map(s.withheldWords(s.v.Withheld), func(w string) string { return title(w) + "." })...)
	list("Repaired", func(x *view.SnagView) bool { return !x.Open && grave(x) })
	return strings.Join(told, " ")
}
