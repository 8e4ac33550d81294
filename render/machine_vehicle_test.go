package render

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"

	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// The terms of Schema.org that we use, as the npm package schema-dts 2.1.0 has them
// in dist/schema.d.ts: the properties of VehicleBase with those of ProductBase and
// ThingBase that it extends, of QuantitativeValueBase and of BrandBase; and the
// sorts of value that each takes there.
var vocabulary = map[string]map[string]string{
	"Vehicle": {
		"name": "Text", "description": "Text", "url": "URL", "image": "ImageObject | URL",
		"brand": "Brand | Organization", "model": "ProductModel | Text", "color": "Text", "itemCondition": "OfferItemCondition",
		"vehicleModelDate": "Date", "fuelType": "QualitativeValue | Text | URL", "bodyType": "QualitativeValue | Text | URL",
		"vehicleIdentificationNumber": "Text", "mileageFromOdometer": "QuantitativeValue", "knownVehicleDamages": "Text",
	},
	"QuantitativeValue": {"value": "Boolean | Number | StructuredValue | Text", "unitCode": "Text | URL"},
	"Brand":             {"name": "Text"},
}

// dataBlocks are the JSON-LD blocks of a page.
func dataBlocks(t *testing.T, f place.File) []map[string]any {
	t.Helper()
	var list []map[string]any
	for n := range parse(t, f).Descendants() {
		if kind, _ := attr(n, "type"); n.Type == html.ElementNode && n.Data == "script" && kind == "application/ld+json" {
			var block map[string]any
			if err := json.Unmarshal([]byte(n.FirstChild.Data), &block); err != nil {
				t.Fatalf("%s: %v", f.Path, err)
			}
			list = append(list, block)
		}
	}
	return list
}

func checkTerms(t *testing.T, block map[string]any) {
	t.Helper()
	sort, _ := block["@type"].(string)
	known := vocabulary[sort]
	if known == nil {
		t.Errorf("there is no type %q", sort)
	}
	for key, value := range block {
		if strings.HasPrefix(key, "@") {
			continue
		}
		if known[key] == "" {
			t.Errorf("a %s has no %s", sort, key)
		}
		switch v := value.(type) {
		case map[string]any:
			if inner, _ := v["@type"].(string); !strings.Contains(known[key], inner) {
				t.Errorf("the %s of a %s is no %s", key, sort, inner)
			}
			checkTerms(t, v)
		case float64:
			if !strings.Contains(known[key], "Number") {
				t.Errorf("the %s of a %s is no number", key, sort)
			}
		case string:
			if v == "" {
				t.Errorf("the %s of a %s is empty", key, sort)
			}
		default:
			t.Errorf("%s is %v", key, value)
		}
	}
}

// The front page describes the vehicle, in words of the vocabulary and no others.
func TestVehicleData(t *testing.T) {
	for _, to := range view.Audiences() {
		for _, base := range []string{"", base} {
			data := placed(t, example(), to, base)["index.html"]
			blocks := dataBlocks(t, place.File{Path: "index.html", Data: data})
			if len(blocks) != 1 || blocks[0]["@context"] != "https://schema.org" {
				t.Fatalf("%v", blocks)
			}
			v := blocks[0]
			checkTerms(t, v)
			for key, want := range map[string]any{"name": "Halden Fjord estate", "vehicleModelDate": "2015", "color": "Skerry Grey", "model": "Fjord 2.0 diesel estate"} {
				if v[key] != want {
					t.Errorf("%s is %v", key, v[key])
				}
			}
			if _, told := v["vehicleIdentificationNumber"]; told != (to != view.ForPublic) {
				t.Errorf("%s: the number is told: %v", to, told)
			}
			if m, _ := v["mileageFromOdometer"].(map[string]any); m["unitCode"] != "SMI" || m["value"].(float64) < 91252 {
				t.Errorf("the mileage is %v", m)
			}
			if damages, _ := v["knownVehicleDamages"].(string); !strings.Contains(damages, "Salvage category: S.") || !strings.Contains(damages, "Repaired: ") {
				t.Errorf("the damages are %q", damages)
			}
			for _, key := range []string{"url", "image"} {
				if got, _ := v[key].(string); strings.HasPrefix(got, "https://halden.example/cars/") != (base != "") || got != "" && base == "" {
					t.Errorf("at %q the %s is %q", base, key, got)
				}
			}
		}
	}
}

// Whatever a builder writes there stays data.
func TestVehicleDataIsHarmless(t *testing.T) {
	var fsys fs.FS = hostileBuild(t)
	for _, f := range siteOf(t, fsys, view.ForWorkshop, 0) {
		if f.Path == "index.html" {
			if blocks := dataBlocks(t, f); len(blocks) != 1 || blocks[0]["name"] != evil {
				t.Errorf("%v", blocks)
			}
		}
	}
	for card, want := range map[string]string{
		"  year: 2015 or so":           "map[]",
		"  year: 2015":                 "map[vehicleModelDate:2015]",
		"  vin: 0H8GDM9A8KP042788":     "map[]", // masked
		"  category: none":             "map[]",
		"  category: N":                "map[knownVehicleDamages:Salvage category: N.]",
		"  Make: Halden\n  Fuel: wood": "map[brand:map[@type:Brand name:Halden] fuelType:wood]",
	} {
		fsys = fstest.MapFS{"build.md": {Data: []byte("---\nbuild: b\ncurrency: GBP\nvehicle:\n" + card + "\n---\n")}}
		v := dataBlocks(t, place.File{Path: "index.html", Data: placed(t, fsys, view.ForPublic, "")["index.html"]})[0]
		for _, always := range []string{"@context", "@type", "name", "itemCondition"} {
			delete(v, always)
		}
		if got := fmt.Sprint(v); got != want {
			t.Errorf("%q: %s, want %s", card, got, want)
		}
	}
}
