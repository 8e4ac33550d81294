package render

import (
	"bytes"
	"fmt"
	"net/url"
	"strings"

	"guidecoat/journal/export"
	"guidecoat/journal/view"
	"guidecoat/render/place"
)

// A machine is a file for programs. Like a page it is made from the view alone.
type machine struct {
	path  string
	words string // of the link to it at the foot of every page; "" where no page leads to it
	there func(*site) bool
	make  func(*site) ([]place.File, error)
}

const csvName = "costs.csv"

var machines = []machine{
	{feedName, "Feed", hasFeed, single(makeFeed)},
	{"build.json", "Data (JSON)", func(*site) bool { return true }, single(buildJSON)},
	{csvName, "Costs (CSV)", hasCSV, single(costsCSV)},
	{"calendar.ics", "Calendar", func(s *site) bool { return export.HasCalendar([]*view.View{s.v}) }, single(makeCalendar)},
	{stripName, "Strip of tape (picture)", hasStrip, single(stripPicture)},
	{"sitemap.xml", "", hasSitemap, makeSitemap},
	{"robots.txt", "", hasRobots, single(makeRobots)},
}

// single makes the one file of a machine, which goes by its path, out of its content.
func single(content func(*site) ([]byte, error)) func(*site) ([]place.File, error) {
	return func(s *site) ([]place.File, error) {
		data, err := content(s)
		return []place.File{{Data: data}}, err
	}
}

func machineJobs(s *site) []job {
	var jobs []job
	for _, m := range machines {
		if !m.there(s) {
			continue
		}
		jobs = append(jobs, func() ([]place.File, error) {
			files, err := m.make(s)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", m.path, err)
			}
			if files[0].Path == "" {
				files[0].Path = m.path
			}
			return files, nil
		})
	}
	return jobs
}

// A Machine is what a page holds for programs, and where it leads them.
type Machine struct {
	Feed      string // "" where there is none
	Downloads []Link // for people who come for these files
	Data      *vehicle
}

func machineOf(s *site, at string) Machine {
	var m Machine
	for _, x := range machines {
		if x.words != "" && x.there(s) {
			m.Downloads = append(m.Downloads, Link{Text: s.Word(x.words), Href: root(at) + x.path})
		}
	}
	if hasFeed(s) {
		m.Feed = root(at) + feedName
	}
	if at == "index.html" {
		m.Data = vehicleOf(s)
	}
	return m
}

// address is where a file will stand, "" without a base. An index.html goes by its folder.
func (s *site) address(at string) string { return addressAt(s.o.BaseURL, at) }

func addressAt(base, at string) string {
	if base == "" {
		return ""
	}
	return strings.TrimSuffix(base, "/") + "/" + strings.TrimSuffix(at, "index.html")
}

// CheckBaseURL says what is wrong with an address that a site is to stand at.
func CheckBaseURL(base string) error {
	u, err := url.Parse(base)
	switch {
	case err != nil || u.Scheme != "https" && u.Scheme != "http" || u.Host == "":
		return fmt.Errorf("%q is not a whole address such as https://example.org/halden/", base)
	case u.RawQuery != "" || u.Fragment != "" || u.User != nil:
		return fmt.Errorf("the address %q must hold no name of a user, no question mark and no #", base)
	}
	return nil
}

func buildJSON(s *site) ([]byte, error) {
	var b bytes.Buffer
	err := export.WriteCompact(&b, export.SeenOf(s.v, func(session string) string { return s.paths.sessions[session] }))
	return b.Bytes(), err
}

func makeCalendar(s *site) ([]byte, error) {
	var b bytes.Buffer
	err := export.WriteCalendar(&b, s.v)
	return b.Bytes(), err
}

func hasCSV(s *site) bool { return s.v.Money != nil && len(s.v.Money.Lines) > 0 }

func costsCSV(s *site) ([]byte, error) {
	var b bytes.Buffer
	err := export.WriteCSV(&b, s.v)
	return b.Bytes(), err
}
