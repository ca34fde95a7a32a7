package tables

import "testing"

// What the first look at all tables costs, and at one of the larger ones.
func BenchmarkLoad(b *testing.B) {
	b.Run("all", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			for _, name := range Names() {
				file, _ := File(name)
				if _, err := Load(name, file); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
	b.Run("tapered_inch", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			file, _ := File("tapered_inch")
			if _, err := Load("tapered_inch", file); err != nil {
				b.Fatal(err)
			}
		}
	})
}
