package render

import (
	"encoding/json"
	"path"

	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/render/markup"
	"guidecoat/render/tongue"
)

// What a page has around its own content.

// A vehicle is described in the vocabulary of Schema.org, as a block of JSON-LD, which is data and never run.
type vehicle struct {
	Context     string         `json:"@context"`
	Type        string         `json:"@type"`
	Name        string         `json:"name"`
	Description string         `json:"description,omitempty"`
	URL         string         `json:"url,omitempty"`
	Image       string         `json:"image,omitempty"`
	Brand       *brand         `json:"brand,omitempty"`
	Model       string         `json:"model,omitempty"`
	ModelDate   string         `json:"vehicleModelDate,omitempty"`
	Color       string         `json:"color,omitempty"`
	Fuel        string         `json:"fuelType,omitempty"`
	Body        string         `json:"bodyType,omitempty"`
	VIN         string         `json:"vehicleIdentificationNumber,omitempty"`
	Condition   string         `json:"itemCondition"`
	Mileage     *odometerValue `json:"mileageFromOdometer,omitempty"`
	Damages     string         `json:"knownVehicleDamages,omitempty"`
}

type brand struct {
	Type string `json:"@type"`
	Name string `json:"name"`
}

type odometerValue struct {
	Type  string      `json:"@type"`
	Value json.Number `json:"value"`
	Unit  string      `json:"unitCode"`
}

// A Machine is what a page holds for programs, and where it leads them.
type Machine struct {
	Feed      string // "" where there is none
	Downloads []Link // for people who come for these files
	Data      *vehicle
}

// A frame is what a page has around its own content.
type frame struct {
	*tongue.Tongue
	typed       bool   // the title and the description are words of the notes
	kind        string // the name of the sort of page
	site        string // the build's name
	root        string // leads to the top of the site
	title       string // of the window
	heading     string // the one h1
	description string
	canonical   string    // the page's own address; "" where no base is known
	previews    []preview // pictures that stand for the page elsewhere, likewise; the first counts most
	noIndex     bool
	safety      bool
	banner      string // a word on whom the copy is for
	mark        string // what the reader must not miss on any page
	nav         []Link
	asOf        measure.Date // that the site was asked for
	newest      measure.Date // that of the newest session
	version     string
	Machine     // what it holds for programs
}

func (f frame) write(w *markup.W, main func()) {
	// 'self' is what a page may load from beside itself; Chromium takes it so for file: pages too.
	w.Raw(`<!doctype html>
<html lang="`).Text(f.lang()).Raw(`">
<head`)
	if f.typed {
		w.InTyped()
	}
	w.Raw(`>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src 'self'; style-src 'self'; base-uri 'none'; form-action 'none'">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<title`)
	if f.typed && f.mark != "" { // the title begins with it
		w.Raw(` lang="`).Text(f.lang()).Raw(`"`)
	}
	w.Raw(">").Text(f.title).Raw(`</title>
<meta name="description" content="`).Text(f.description).Raw(`">
`).If(f.noIndex, `<meta name="robots" content="noindex, nofollow">
`)
	sort := pick.Either(f.kind == "session", "article", "website")
	w.Raw(`<meta property="og:type" content="`).Text(sort).Raw(`">
<meta property="og:site_name" content="`).Text(f.site).Raw(`">
<meta property="og:title" content="`).Text(f.heading).Raw(`">
<meta property="og:description" content="`).Text(f.description).Raw(`">
`)
	if f.canonical != "" {
		w.Raw(`<meta property="og:url" content="`).Text(f.canonical).Raw(`">
<link rel="canonical"`).Href(f.canonical).Raw(">\n")
	}
	for _, x := range f.previews {
		w.Raw(`<meta property="og:image" content="`).Text(x.address).Raw(`">
<meta property="og:image:type" content="`).Text(imageTypes[path.Ext(x.address)]).Raw(`">
<meta property="og:image:width" content="`).Int(x.width).Raw(`">
<meta property="og:image:height" content="`).Int(x.height).Raw(`">
<meta property="og:image:alt" content="`).Text(x.alt).Raw("\">\n")
	}
	if f.Feed != "" {
		w.Raw(`<link rel="alternate" type="application/atom+xml" title="{Sessions}" lang="`).Text(f.lang()).Raw(`"`).Href(f.Feed).Raw(">\n")
	}
	w.Raw(`<link rel="icon" type="image/svg+xml"`).Href(f.root + iconName).Raw(">\n")
	if f.kind == "pack" {
		w.Raw(`<link rel="stylesheet"`).Href(f.root + recordStyle).Raw(">\n")
	}
	w.Raw(`<link rel="stylesheet"`).Href(f.root + "style.css").Raw(">\n")
	if f.Data != nil {
		w.Raw(`<script type="application/ld+json">`).Data(f.Data).Raw("</script>\n")
	}
	w.Raw(`</head>
<body class="on-`).Text(f.kind).Raw(`">
<a class="skip" href="#_main">{Skip to the content}</a>
`)
	f.writeTop(w)
	w.Raw(`<main id="_main" tabindex="-1">
`)
	main()
	w.If(f.safety, `<div class="caution" role="note"><strong>{Caution.}</strong>
{A record of one person’s work, not instructions. Follow the maker’s data and local rules, and have safety work checked by somebody licensed.}</div>
`).Raw(`</main>
<footer class="foot">
<p>`)
	if f.asOf != 0 {
		writeTime(w.Raw("{As it stood on} "), f.asOf, f.Day(f.asOf)).Raw(".")
	} else if f.newest != 0 {
		writeTime(w.Raw("{Newest session} "), f.newest, f.Day(f.newest)).Raw(".")
	}
	w.Raw("\n{Made from plain-text notes by guidecoat}").With(" ", f.version, "").Raw(".</p>\n")
	markup.Each(w, f.Downloads, `<ul class="inline">`, func(l Link) { writeLink(w.Raw("<li>"), l).Raw("</li>") }, "</ul>\n")
	w.Raw(`</footer>
</body>
</html>
`)
}

func (f frame) writeTop(w *markup.W) {
	w.Raw("<header>\n").With(`<p class="mark"><strong>`, f.mark, "</strong></p>\n").With(`<p class="copy">`, f.banner, "</p>\n").Raw(`<div class="top">
<a class="home"`).Href(f.root+"index.html").Raw(">").Quote("", f.site, "").Raw(`</a>
<nav aria-label="{Pages}"><ul>
`)
	for _, l := range f.nav {
		writeLink(w.Raw("<li>"), l).Raw("</li>\n")
	}
	w.Raw(`</ul></nav>
</div>
</header>
`)
}

// A preview is a picture as Open Graph describes it (https://ogp.me, "Structured Properties").
type preview struct {
	address, alt  string
	width, height int
}

var imageTypes = map[string]string{".jpg": "image/jpeg", ".png": "image/png"}

// lang is the language of the page, as HTML says it: the program's own English is British.
func (f frame) lang() string {
	return pick.Either(f.Code == tongue.English, "en-GB", f.Code)
}
