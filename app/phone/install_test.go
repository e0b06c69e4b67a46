package phone

import (
	"context"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"gapwright/app/job"
	"gapwright/app/view"
	"gapwright/app/words"
	"gapwright/geometry"
)

var shownAgain = flag.Bool("shown", false, "take the pictures in web/shown anew, which a browser shows to whoever thinks of installing the app")

// Chromium itself reads the manifest and says whether the app can be installed, with the network gone.
func TestChromiumInstallsTheApp(t *testing.T) {
	t.Parallel()
	w := StartWalk(t, "install", Small)
	ctx, cancel := context.WithTimeout(w.tab, Patience)
	defer cancel()
	read, err := chromedp.Call(ctx, page.GetAppManifest, page.GetAppManifestParams{})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range read.Errors {
		t.Errorf("the manifest: %s", e.Message)
	}
	if !strings.HasSuffix(read.URL, "/manifest.webmanifest") || !strings.Contains(read.Data, words.AppName()) {
		t.Errorf("the manifest of %q reads %.100s", read.URL, read.Data)
	}
	not, err := chromedp.Call(ctx, page.GetInstallabilityErrors, cdp.Empty{})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range not.InstallabilityErrors {
		t.Errorf("it cannot be installed: %s %v", e.ErrorID, e.ErrorArguments)
	}
}

// What is on the pictures is invented.
func TestPicturesOfTheApp(t *testing.T) {
	if !*shownAgain {
		t.Skip("asked for with -shown")
	}
	w := StartWalk(t, "shown", Small)
	keep := func(name string) {
		w.do("a finer screen", chromedp.EmulateViewport(360, 640, chromedp.EmulateMobile, chromedp.EmulateTouch, chromedp.EmulateScale(1.5)))
		w.WaitSaved()
		w.JS("(scrollTo(0, 0), document.activeElement.blur(), new Promise(done => setTimeout(done, 500, true)))")
		data, err := os.ReadFile(w.shotInto(name))
		if err == nil {
			err = os.WriteFile(filepath.Join(Root(), "web", "shown", name+".png"), data, 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	w.holds(job.Kit{Unit: job.MM, Marks: job.EveryHalfMM, Zero: job.ZeroAtEnd},
		wasSet("porch", "Porch guitar", geometry.FlatTop6, 12, byMarks(0, "2.25", "2.50"), byMarks(5, "1.75", "2.00")),
		wasSet("blue", "Blue bass", geometry.Bass, 40, byMarks(0, "2.25", "2.50"), byMarks(3, "1.75", "2.00")),
		wasSet("uke", "Tenor uke", geometry.UkuleleTenor, 3, byMarks(0, "2.25", "2.50"), byMarks(3, "2.00", "2.25")))
	w.Tap(words.NewJob() + ": Porch guitar")
	w.Waiting(words.Question(job.AskSaddle, job.Kit{}).Title)
	w.Tap(words.Answer(job.AskSaddle, job.SaddleLoose))
	w.Waiting(words.ReadTitle(job.Instrument{Family: geometry.FlatTop6}, 0, false))
	keep("1-measure")
	w.Go(view.Bench)
	keep("3-bench")
	w.Tap(words.TryExample())
	w.Wait("a question", `document.querySelector(".where") !== null`)
	keep("2-ask")
}

// shotInto takes a picture of the screen into build/screens and says where it is.
func (p *Phone) shotInto(name string) string {
	p.Screenshot("shown " + name)
	return filepath.Join(Root(), "build", "screens", "shown-"+name+".png")
}
