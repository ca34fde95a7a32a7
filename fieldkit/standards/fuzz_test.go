package standards_test

import (
	"errors"
	"testing"
	"unicode/utf8"

	"trailfieldkit/fieldkit/standards"
)

// What is accepted is printed as a text that reads back to the same designation; what
// is refused gives nothing but a place within the text and a reason.
func FuzzParse(f *testing.F) {
	for _, e := range examples {
		f.Add(e.typed)
	}
	for _, seed := range []string{
		"6207 DDU", "T9ZZ000", "-6", "1/2", "45x68", "M14x", "#", "K", "9/16-18 UNC", "35x", "LM501349/", "AS568-", "1G4AHS9H45G118341",
		"036000291425", "04252614", "\xff6207", "６２０７", "ß45x68x10", "5x0", "0x0x0", "00000000", "000000000003", "6PK0", "K999999", "1/0-8", "999999999999999999999", "M٣x1", "½-13",
	} {
		f.Add(seed)
	}
	h, err := standards.Open(embedded)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		readings, err := h.Parse(text)
		if err != nil {
			var m *standards.Misread
			if readings != nil || !errors.As(err, &m) {
				t.Fatalf("refused %q with %v but gave %v", text, err, readings)
			}
			if m.At < 0 || m.At > utf8.RuneCountInString(text) || m.Why == "" {
				t.Fatalf("refused %q at %d: %q", text, m.At, m.Why)
			}
			for _, d := range m.Nearest {
				roundTrip(t, h, text, d)
			}
			return
		}
		for _, r := range readings {
			roundTrip(t, h, text, r.Designation)
		}
	})
}

func roundTrip(t *testing.T, h *standards.Handbook, text string, d standards.Designation) {
	name := d.String()
	back, err := h.ParseAs(d.Kind(), name)
	if err != nil || back.String() != name {
		t.Fatalf("%q is %s %q, which reads back as %v, %v", text, d.Kind(), name, back, err)
	}
	if len(back.Dims()) != len(d.Dims()) {
		t.Fatalf("%q and %q differ in figures: %v, %v", text, name, d.Dims(), back.Dims())
	}
	for i, dim := range d.Dims() {
		if back.Dims()[i] != dim {
			t.Fatalf("%q and %q differ in %v and %v", text, name, dim, back.Dims()[i])
		}
	}
	if d.Source() == "" || len(d.Explain()) == 0 {
		t.Fatalf("%q has no source or no explanation", name)
	}
}

// Readings asks for no reasons: it must understand the same as Parse.
func FuzzReadings(f *testing.F) {
	for _, e := range examples {
		f.Add(e.typed)
	}
	h, err := standards.Open(embedded)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, r := range h.Readings(text) {
			d, err := h.ParseAs(r.Designation.Kind(), text)
			if err != nil {
				t.Fatalf("%q is %s %q but not read as one: %v", text, r.Designation.Kind(), r.Designation, err)
			}
			roundTrip(t, h, text, d)
		}
	})
}

// Each grammar by itself: refused gives the zero value.
func FuzzParseVIN(f *testing.F) {
	for _, seed := range []string{"1G4AH59H45G118341", "WX0ZZZ1JZXW000001", "CST187F131704", "1M8GDM9AXKP042788", "", "IOQ", "11111111111111111", "1G4 AH59-H45G118341"} {
		f.Add(seed)
	}
	h, err := standards.Open(embedded)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := h.ParseVIN(text)
		if err != nil {
			if v != (standards.VIN{}) {
				t.Fatalf("refused %q but gave %v", text, v)
			}
			return
		}
		back, err := h.ParseVIN(v.String())
		if err != nil || back != v {
			t.Fatalf("%q is %v and reads back as %v, %v", text, v, back, err)
		}
		for _, c := range v.Corrections() {
			if w := (standards.VIN{Text: c.Text}); c.Place < 1 || c.Place > 17 {
				t.Fatalf("%q: correction %v", text, c)
			} else if _, ok := w.Check(); !ok {
				t.Fatalf("%q: corrected to %q, which is wrong too", text, c.Text)
			}
		}
	})
}
