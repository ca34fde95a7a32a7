package data

import (
	"embed"
	"slices"
	"strings"
	"sync"

	"trailfieldkit/fieldkit/order"
	"trailfieldkit/fieldkit/repair"
)

//go:embed repairs/*.json
var repairFiles embed.FS

// Guides returns the repairs the program brings along, sorted by ID. They are read
// once; a broken file panics, which a test rules out as it does a broken rule of
// repair.LoadGuides. The list is the caller's own, its guides are shared and must
// not be changed.
func Guides() []repair.Guide { return slices.Clone(loadedGuides()) }

var loadedGuides = sync.OnceValue(func() []repair.Guide {
	guides, err := readGuides(repair.ReadGuides)
	if err != nil {
		panic("data: " + err.Error())
	}
	return guides
})

func readGuides(read func(name string, text []byte) ([]repair.Guide, error)) ([]repair.Guide, error) {
	entries, err := repairFiles.ReadDir("repairs")
	if err != nil {
		return nil, err
	}
	var all []repair.Guide
	for _, e := range entries {
		name := "repairs/" + e.Name()
		text, err := repairFiles.ReadFile(name)
		if err != nil {
			return nil, err
		}
		guides, err := read(name, text)
		if err != nil {
			return nil, err
		}
		all = append(all, guides...)
	}
	order.By(all, func(a, b repair.Guide) int { return strings.Compare(a.ID, b.ID) })
	return all, nil
}
