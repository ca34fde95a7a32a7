package measure_test

import "testing"

func BenchmarkFind(b *testing.B) {
	h := handbook(b)
	for _, line := range []string{"bearing bore=35 od=72 width=17", "thread nominal=7.9", "tyre diameter=35in rim=17", "bearing bore=35.6 od=72 width=17"} {
		kind, query := parseLine(b, line)
		b.Run(line, func(b *testing.B) {
			for b.Loop() {
				if _, err := kind.Find(h, query); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
