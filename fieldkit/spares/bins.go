package spares

import (
	"cmp"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// stow gives each line a bin: the one it is in by hand or usually rides in if its
// limits allow, else the first bin with room for all of its pieces, else none. What
// has a usual place is stowed before the rest, the heavy before the light, so that
// no small thing fills the only bin a big one fits in.
func stow(bins []fieldkit.Bin, lines []fieldkit.PackLine, articleOf func(Ref) article) {
	type room struct {
		mass   fieldkit.Mass
		volume fieldkit.Volume
	}
	filled := make([]room, len(bins))
	put := func(line *fieldkit.PackLine, b int) bool {
		a := articleOf(RefOf(*line))
		now := room{
			plus(filled[b].mass, times(a.mass, line.Count)),
			plus(filled[b].volume, times(a.volume, line.Count)),
		}
		if l := bins[b].MassLimit; l > 0 && now.mass > l {
			return false
		}
		if l := bins[b].VolumeLimit; l > 0 && now.volume > l {
			return false
		}
		filled[b], line.Bin = now, bins[b].ID
		return true
	}
	var settled, loose []*fieldkit.PackLine
	usual := map[*fieldkit.PackLine]int{}
	for i := range lines {
		line := &lines[i]
		b := binNamed(bins, line.Bin)
		if b < 0 {
			b = binNamed(bins, articleOf(RefOf(*line)).bin)
		}
		if line.Bin = ""; b < 0 {
			loose = append(loose, line)
			continue
		}
		usual[line] = b
		settled = append(settled, line)
	}
	heavyFirst := func(a, b *fieldkit.PackLine) int {
		x, y := times(articleOf(RefOf(*a)).mass, a.Count), times(articleOf(RefOf(*b)).mass, b.Count)
		return cmp.Or(cmp.Compare(y, x), RefOf(*a).compare(RefOf(*b)))
	}
	order.By(settled, heavyFirst)
	order.By(loose, heavyFirst)
	var pushed []*fieldkit.PackLine
	for _, line := range settled {
		if !put(line, usual[line]) {
			pushed = append(pushed, line)
		}
	}
	for _, line := range append(pushed, loose...) {
		for b := range bins {
			if put(line, b) {
				break
			}
		}
	}
}

func binNamed(bins []fieldkit.Bin, id string) int {
	return slices.IndexFunc(bins, func(b fieldkit.Bin) bool { return b.ID == id })
}
