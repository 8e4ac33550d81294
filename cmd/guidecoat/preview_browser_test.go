package main

import (
	"context"
	"fmt"
	"os/exec"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// A real browser refreshes the open page where it stands, runs nothing that the
// policy forbids and has no complaint.
func TestPreviewInABrowser(t *testing.T) {
	exe, err := exec.LookPath("chromium")
	if err != nil || testing.Short() {
		t.Skip("skipped: no Chromium here, or -short was given, so no page was seen to refresh")
	}
	p := previewBuild(t)
	p.write("2026-04-11.md", previewNote+strings.Repeat("\nA line.\n", 300))
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(exe), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.Flag("disable-dev-shm-usage", true))
	ctx, stop := chromedp.NewExecAllocator(t.Context(), opts...)
	defer stop()
	ctx, stop = context.WithTimeout(ctx, 2*time.Minute)
	defer stop()
	ctx, stop = chromedp.NewContext(ctx)
	defer stop()
	var complaints atomic.Pointer[string]
	chromedp.ListenTarget(ctx, func(e any) {
		switch e := e.(type) {
		case *log.EventEntryAdded:
			complaints.Store(&e.Entry.Text)
		case *runtime.EventExceptionThrown:
			complaints.Store(&e.ExceptionDetails.Text)
		}
	})
	holds := func(condition string) chromedp.Action { // asks again, since a page that refreshes answers nothing
		return chromedp.ActionFunc(func(ctx context.Context) error {
			var ok bool
			var err error
			for range 600 {
				if err = chromedp.Evaluate(`document.readyState === "complete" && `+condition, &ok).Do(ctx); err == nil && ok {
					return nil
				}
				if err := chromedp.Sleep(50 * time.Millisecond).Do(ctx); err != nil {
					return err
				}
			}
			return fmt.Errorf("%s: %v, %w", condition, ok, err)
		})
	}
	shows := func(words string) chromedp.Action {
		return holds("document.body.innerText.includes(`" + words + "`)")
	}
	var before, after float64
	var position string
	err = chromedp.Run(ctx,
		chromedp.Navigate(p.url+notePage), shows("A line."),
		chromedp.Evaluate(`scrollTo({ top: 700, behavior: "instant" })`, nil), chromedp.Evaluate(`scrollY`, &before),
		save(p, previewNote+strings.Repeat("\nAnother line.\n", 300)), shows("Another line."), chromedp.Sleep(200*time.Millisecond),
		chromedp.Evaluate(`scrollY`, &after),
		save(p, brokenNote), shows("This is the last good page."), shows("2026-04-11.md:3:8"), shows("Another line."),
		chromedp.Evaluate(`getComputedStyle(document.querySelector(".guidecoat-preview")).position`, &position),
		save(p, previewNote), shows("It came off."), holds(`!document.querySelector(".guidecoat-preview")`),
	)
	if err != nil {
		t.Fatal(err)
	}
	if before < 600 || after != before {
		t.Errorf("the page stood at %v and stands at %v", before, after)
	}
	if position != "sticky" {
		t.Errorf("the bar has no style: %q", position)
	}
	if c := complaints.Load(); c != nil {
		t.Errorf("the browser says %q", *c)
	}
}

func save(p *previewed, data string) chromedp.Action {
	return chromedp.ActionFunc(func(context.Context) error {
		p.write("2026-04-11.md", data)
		return nil
	})
}
