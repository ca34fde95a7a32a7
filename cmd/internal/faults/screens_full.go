package faults

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"

	"trailfieldkit/cmd/internal/chromium"
)

// photoTooMuch is class f: the browser itself has room for the words of a failure, but
// not for its photo.
func photoTooMuch(ctx context.Context, s *site, n amounts) (*Class, error) {
	c := &Class{Name: "f  storage full while a photo is saved"}
	dir, err := os.MkdirTemp("", "fieldkit-photo-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	rounds := 1
	if n.every == 1 {
		rounds = 5
	}
	for round := range rounds {
		if err := s.oneFullPhone(ctx, c, filepath.Join(dir, fmt.Sprintf("photo-%d.png", round)), uint64(round)); err != nil {
			return nil, err
		}
	}
	return c, nil
}

func (s *site) oneFullPhone(ctx context.Context, c *Class, photo string, seed uint64) error {
	if err := WriteNoise(photo, seed, 1600, 1200); err != nil {
		return err
	}
	b, err := chromium.Start(ctx, chromium.Options{Phone: true})
	if err != nil {
		return err
	}
	defer b.Kill()
	// The browser remembers for half a minute how much room there was: the limit comes
	// before anything is written.
	blank, err := s.openBench(b)
	if err != nil {
		return err
	}
	const room = 560_000
	limit := float64(room)
	if err := s.setQuota(blank, &limit); err != nil {
		return err
	}
	page, err := s.openApp(b, "/rig")
	if err != nil {
		return err
	}
	if err := beginDemo(page); err != nil {
		return err
	}
	text := fmt.Sprintf("shackle bent, phone %d", seed)
	if err := fillFailure(page, text); err != nil {
		return err
	}
	if err := page.Upload("Add a photo", photo); err != nil {
		return err
	}
	if err := page.WaitFor("the photo in the form", `document.querySelectorAll('.photos img').length === 1`); err != nil {
		return err
	}
	if err := page.Tap("button:Save"); err != nil {
		return err
	}
	if err := page.WaitFor("the log", saved); err != nil {
		c.bad("the entry was not kept without its photo: %v", err)
		c.Cases++
		return nil
	}
	c.Cases++
	c.Acknowledged++
	message, err := chromium.Eval[string](page, `document.querySelector('main [role=alert]')?.innerText || ''`)
	if err != nil {
		return err
	}
	if !strings.Contains(message, "photo was not kept") {
		c.bad("nobody was told that the photo is not kept: %q", message)
	}
	c.tell(strings.Join(strings.Fields(message), " "))
	strict(c, page)
	used := 0.0
	if err := page.Do(func(ctx context.Context, t *chromedp.Target) error {
		found, err := cdp.Call(ctx, t, storage.GetUsageAndQuota, storage.GetUsageAndQuotaParams{Origin: s.address})
		used = found.Usage
		return err
	}); err != nil {
		return err
	}
	c.Note = fmt.Sprintf("%.0f of %d bytes used", used, room)
	if err := s.logHolds(c, page, []string{text}); err != nil {
		return err
	}
	// With room again the photo waits in the entry's form, and is kept with it.
	if err := s.setQuota(blank, nil); err != nil {
		return err
	}
	for _, step := range []string{"the photo that waits", "the photo that is kept"} {
		if err := page.Tap(text); err != nil {
			return err
		}
		if err := page.WaitFor(step, `document.querySelectorAll('.photos img').length === 1`); err != nil {
			c.bad("%v", err)
			return nil
		}
		if err := page.Tap("button:Save"); err != nil {
			return err
		}
		if err := page.WaitFor("the log", saved); err != nil {
			return err
		}
		if err := goTo(page, s.address+"/log"); err != nil {
			return err
		}
	}
	return nil
}

// WriteNoise writes a picture of that many pixels which no format makes much smaller.
func WriteNoise(file string, seed uint64, width, height int) error {
	rnd := rand.New(rand.NewPCG(seed, 9))
	picture := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			v := rnd.Uint32()
			picture.SetNRGBA(x, y, color.NRGBA{uint8(v), uint8(v >> 8), uint8(v >> 16), 255})
		}
	}
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	defer f.Close()
	return png.Encode(f, picture)
}
