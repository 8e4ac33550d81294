package render

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"guidecoat/journal/measure"
	"guidecoat/journal/view"
	"guidecoat/render/place"
	"guidecoat/themes"
)

// chrome is the one headless Chromium in which all tests look at pages.
var chrome struct {
	sync.Once
	ctx  context.Context // nil where there is none
	stop context.CancelFunc
	err  error
}

func TestMain(m *testing.M) {
	code := m.Run()
	if chrome.stop != nil {
		chrome.stop()
	}
	os.Exit(code)
}

func startChrome() {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		exe, err := exec.LookPath(name)
		if err != nil {
			continue
		}
		opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(exe), chromedp.NoSandbox, chromedp.DisableGPU,
			chromedp.Flag("disable-dev-shm-usage", true), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
		ctx, stop := chromedp.NewExecAllocator(context.Background(), opts...)
		chrome.ctx, _ = chromedp.NewContext(ctx)
		chrome.stop, chrome.err = stop, chromedp.Run(chrome.ctx)
		return
	}
}

// browser opens a tab for a test, which runs beside others from here on, or skips the test
// where there is no browser.
func browser(t *testing.T) context.Context {
	t.Helper()
	if testing.Short() {
		t.Skip("skipped: the browser takes its time, and -short was given")
	}
	t.Parallel()
	chrome.Do(startChrome)
	if chrome.ctx == nil {
		t.Skip("skipped: no Chromium here, so nobody has looked at the pages; install chromium to run it")
	}
	ctx, stop := chromedp.NewContext(chrome.ctx)
	t.Cleanup(stop)
	// A tab that nobody looks at would draw nothing.
	if err := cmp.Or(chrome.err, chromedp.Run(ctx, emulation.SetFocusEmulationEnabled(true))); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// do has a tab do something. A browser that is starved of time is asked again.
func do(ctx context.Context, t *testing.T, actions ...chromedp.Action) {
	t.Helper()
	for tries := 1; ; tries++ {
		limited, stop := context.WithTimeout(ctx, 40*time.Second)
		err := chromedp.Run(limited, actions...)
		stop()
		if err == nil {
			return
		}
		if tries == 3 || !errors.Is(err, context.DeadlineExceeded) {
			var at string
			_ = chromedp.Run(ctx, chromedp.Location(&at))
			t.Fatalf("%s: %v", at, err)
		}
	}
}

// toured tells whether the browser visits a kind of page of a site: every kind in the first
// theme, and in the others those that they draw themselves. GUIDECOAT_TOUR=all, as in .ci/run,
// leads it to every kind in every theme.
func toured(site, kind string) bool {
	other := slices.ContainsFunc(themes.Names(), func(theme string) bool { return theme != themes.Default && strings.HasSuffix(site, theme) })
	return wholeTour() || !other || isDrawn(kind)
}

func wholeTour() bool { return os.Getenv("GUIDECOAT_TOUR") == "all" }

func isDrawn(kind string) bool { return slices.Contains([]string{"build", "pack", "session"}, kind) }

func awaited(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }

func writeSite(t *testing.T, files []place.File) string {
	t.Helper()
	dir := t.TempDir()
	for _, f := range files {
		name := filepath.Join(dir, filepath.FromSlash(f.Path))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, f.Data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// A watch keeps what the browser says and asks for while pages are open.
type watch struct {
	mu    sync.Mutex
	home  string
	heard []string
}

func (w *watch) add(format string, args ...any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.heard = append(w.heard, fmt.Sprintf(format, args...))
}

func (w *watch) take() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	heard := w.heard
	w.heard = nil
	return heard
}

func (w *watch) event(e any) {
	switch e := e.(type) {
	case *runtime.EventConsoleAPICalled:
		w.add("the console says something: %s", e.Type)
	case *runtime.EventExceptionThrown:
		w.add("an exception: %s", e.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		w.add("the log says: %s", e.Entry.Text)
	case *network.EventRequestWillBeSent:
		if !strings.HasPrefix(e.Request.URL, w.home) {
			w.add("it asks for %s", e.Request.URL)
		}
	case *network.EventLoadingFailed:
		if !e.Canceled { // a picture of another width is asked for in its place
			w.add("something did not load: %s", e.ErrorText)
		}
	}
}

// Opened from a folder, a page of each kind has its style and its pictures, says nothing,
// asks for nothing outside, and fits every screen without scrolling sideways.
func TestInTheBrowser(t *testing.T) {
	ctx := browser(t)
	for name, files := range map[string][]place.File{
		"workshop in June":  siteOf(t, example(), view.ForWorkshop, measure.NewDate(2026, 6, 1)),
		"public":            siteOf(t, example(), view.ForPublic, 0),
		"workshop, lacquer": lacquered(t, view.ForWorkshop, measure.NewDate(2026, 6, 1)),
		"hostile":           siteOf(t, hostileBuild(t), view.ForWorkshop, 0),
	} {
		var pages []place.File
		for kind, f := range kinds(files) {
			if toured(name, kind) && (name != "public" || wholeTour() || isDrawn(kind)) {
				pages = append(pages, f)
			}
		}
		if name == "hostile" {
			pages = files
		}
		dir := writeSite(t, files)
		w := &watch{home: "file://" + dir}
		chromedp.ListenTarget(ctx, w.event)
		do(ctx, t, network.Enable(), log.Enable(), runtime.Enable())
		for _, f := range pages {
			if isPage(f) {
				for _, complaint := range look(ctx, t, "file://"+dir+"/"+f.Path, w) {
					t.Errorf("%s: %s: %s", name, f.Path, complaint)
				}
			}
		}
		w.home = "" // it goes on listening to the pages of the next site
	}
}

func look(ctx context.Context, t *testing.T, url string, w *watch) []string {
	t.Helper()
	var family string
	var broken []string
	do(ctx, t,
		chromedp.Navigate(url),
		chromedp.Evaluate(`getComputedStyle(document.documentElement).getPropertyValue("--ground")`, &family),
		chromedp.Evaluate(`Promise.all([...document.images].map(i => { i.loading = "eager"; return i.decode().then(() => "", () => i.src) })).then(l => l.filter(s => s))`,
			&broken, awaited))
	list := w.take()
	if family == "" {
		list = append(list, "it has no style")
	}
	for _, src := range broken {
		list = append(list, "a picture is not shown: "+src)
	}
	for _, width := range []int64{320, 390, 768, 1280} {
		var wide []string
		do(ctx, t,
			emulation.SetDeviceMetricsOverride(width, 800, 1, false), // a phone's zoom would hide it
			chromedp.Evaluate(`document.documentElement.scrollWidth <= innerWidth ? [] : [...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest(".scroll, .table-scroll, pre")).map(e => e.tagName + "." + e.getAttribute("class")).slice(0, 5).concat("")`, &wide))
		if len(wide) > 0 {
			list = append(list, fmt.Sprintf("at %d pixels it scrolls sideways: %s", width, strings.Join(wide, " ")))
		}
	}
	return list
}
