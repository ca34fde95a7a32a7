package fieldkit

import "testing"

// What is taken is printed as a text that reads back to the same; what is
// refused leaves nothing.

func FuzzParseValue(f *testing.F) {
	for _, seed := range []string{"28", "1-3/8 in", "34,93 mm", "2½ ft", "−5 °C", "90 N·m", "300 cm3", "M14×1.5", "1,234", "5 ft 3 in", "12 V", "2 km", ".5", "5 .", "½ ¼", "-1/0 in", "9/16-18", "9223372036854.775808 mm", "\xff", "1 fl. oz."} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := ParseValue(text)
		if err != nil {
			if v != (Value{}) {
				t.Fatalf("refused %q but gave %v", text, v)
			}
			return
		}
		back, err := ParseValue(v.String())
		if err != nil || back != v {
			t.Fatalf("%q is %#v, prints %q and reads back as %#v, %v", text, v, v, back, err)
		}
		v.Both(Inch)
	})
}

func FuzzParseLength(f *testing.F) {
	for _, seed := range []string{"1-3/8", "1 3/8 in", `5' 3"`, "34,93 mm", "½", "1½ ft ¼ in", "-0", "1,234 mm", "3 in 2 in", "99999999999 km", "٣ mm", "1/64\""} {
		f.Add(seed, true)
		f.Add(seed, false)
	}
	f.Fuzz(func(t *testing.T, text string, inch bool) {
		system := Metric
		if inch {
			system = Inch
		}
		q, err := ParseLength(text, system)
		if err != nil {
			if q != 0 {
				t.Fatalf("refused %q but gave %v", text, q)
			}
			return
		}
		back, err := ParseLength(q.String(), system.Other())
		if err != nil || back != q {
			t.Fatalf("%q is %d, prints %q and reads back as %d, %v", text, q, q, back, err)
		}
		again, err := ParseLength(text, system)
		if err != nil || again != q {
			t.Fatalf("%q is read as %d, then as %d, %v", text, q, again, err)
		}
		q.Both(system)
	})
}

func FuzzParseDate(f *testing.F) {
	for _, seed := range []string{"2026-05-14", "14 May 2026", "May 14, 2026", "3/4/2026", "29 Feb 2024", "31.12.1999", "2026-02-31", "0-0-0", "14 may2026", "+1 May 2026"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := ParseDate(text)
		if err != nil {
			if d != (Date{}) {
				t.Fatalf("refused %q but gave %v", text, d)
			}
			return
		}
		for _, printed := range []string{d.String(), d.Show()} {
			back, err := ParseDate(printed)
			if err != nil || back != d {
				t.Fatalf("%q is %v, prints %q and reads back as %v, %v", text, d, printed, back, err)
			}
		}
	})
}
