package measure_test

import (
	"math"
	"testing"

	"trailfieldkit/fieldkit/standards/measure"
)

// Whatever is given, a result is whole: likelihoods are numbers that add up to less
// than 1, and there is something to do next; what is refused gives nothing.
func FuzzFind(f *testing.F) {
	for _, seed := range [][3]string{
		{"bearing", "bore", "35"}, {"bearing", "type", "ball"}, {"tapered", "bore", "1-5/8"}, {"thread", "pitch", "1.5"}, {"thread", "tpi", "11.5"},
		{"o-ring", "cs", "3,5"}, {"seal", "shaft", "45±0.5 mm"}, {"wheel", "studs", "5"}, {"tyre", "diameter", "35"}, {"belt", "length", "70.7 in"},
		{"battery", "terminals", "side"}, {"fuse", "rating", "30 A"}, {"wire", "area", "2.5"}, {"spline", "splines", "30 splines"}, {"bolt", "marks", "6"},
		{"hose", "bore", "½"}, {"u-joint", "cap", "1.0625\""}, {"fitting", "seat", "37"}, {"bearing", "bore", "9999999999 km"}, {"bearing", "bore", "1e9"}, {"seal", "shaft", "1±99999 km"},
	} {
		f.Add(seed[0], seed[1], seed[2], true)
		f.Add(seed[0], seed[1], seed[2], false)
	}
	h := handbook(f)
	f.Fuzz(func(t *testing.T, kindName, name, text string, worn bool) {
		kind, ok := measure.KindNamed(kindName)
		if !ok {
			return
		}
		r, err := kind.Find(h, measure.Query{Given: []measure.Given{{Name: name, Text: text}}, Worn: worn})
		if err != nil {
			if len(r.Candidates) != 0 || len(r.Readings) != 0 {
				t.Fatalf("refused %s %s=%q but gave %v", kindName, name, text, r)
			}
			return
		}
		sum := 0.0
		for _, c := range r.Candidates {
			if math.IsNaN(c.Likelihood) || c.Likelihood < 0 || c.Designation.String() == "" {
				t.Fatalf("%s %s=%q: %v", kindName, name, text, c)
			}
			sum += c.Likelihood
		}
		if sum > 1.000001 || len(r.Candidates) == 0 || r.Next.Why == "" {
			t.Fatalf("%s %s=%q: %d candidates, likelihoods of %v, next %v", kindName, name, text, len(r.Candidates), sum, r.Next)
		}
	})
}
