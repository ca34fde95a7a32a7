package standards_test

import (
	"testing"

	"trailfieldkit/fieldkit/standards"
)

func BenchmarkOpen(b *testing.B) {
	embedded("ball_bearings") // the file is read before
	for b.Loop() {
		if _, err := standards.Open(embedded); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParse(b *testing.B) {
	h := handbook(b)
	for _, text := range []string{"6207-2RS C3", "LM501349/LM501310", "35x12.50R17LT 121Q", "316/70R17", "zebra"} {
		b.Run(text, func(b *testing.B) {
			for b.Loop() {
				_, _ = h.Parse(text)
			}
		})
	}
}
