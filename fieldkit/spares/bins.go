package spares

import (
	"cmp"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// stow gives each line a bin, of the rig that carries it where that is said. What is packed
// lies where it lies, and what is pinned and in no bin stays in none. Of the rest each gets
// the bin it is in by hand or usually rides in if its limits allow, else the one where it lies best that has room for all of its pieces (the
// heavy low and forward, tools at hand, no bin full before the others), else none. What
// has a usual place is stowed before the rest, the heavy before the light, so that
// no small thing fills the only bin a big one fits in.
func stow(bins []fieldkit.Bin, lines []fieldkit.PackLine, articleOf func(Ref) article) {
	type room struct {
		mass   fieldkit.Mass
		volume fieldkit.Volume
	}
	filled := make([]room, len(bins))
	with := func(line *fieldkit.PackLine, b int) (now room, fits bool) {
		a := articleOf(RefOf(*line))
		now = room{
			plus(filled[b].mass, times(a.mass, line.Count)),
			plus(filled[b].volume, times(a.volume, line.Count)),
		}
		l, v := bins[b].MassLimit, bins[b].VolumeLimit
		return now, (line.Rig == "" || line.Rig == bins[b].Rig) && (l <= 0 || now.mass <= l) && (v <= 0 || now.volume <= v)
	}
	put := func(line *fieldkit.PackLine, b int) bool {
		now, fits := with(line, b)
		if fits {
			filled[b], line.Bin = now, bins[b].ID
		}
		return fits
	}
	// best is the bin where a line lies best: where its weight and use want it, and of
	// such bins the emptiest.
	best := func(line *fieldkit.PackLine) int {
		found, least := -1, 0.0
		for b := range bins {
			now, fits := with(line, b)
			if !fits {
				continue
			}
			a := articleOf(RefOf(*line))
			score := fullness(bins[b], now.mass, now.volume) + misplaced(bins[b], *line, times(a.mass, line.Count))
			if found < 0 || score < least-1e-9 {
				found, least = b, score
			}
		}
		return found
	}
	var settled, loose []*fieldkit.PackLine
	usual := map[*fieldkit.PackLine]int{}
	for i := range lines {
		line := &lines[i]
		b := binNamed(bins, line.Bin)
		if line.Packed && b >= 0 {
			filled[b], _ = with(line, b)
			continue
		}
		if Stays(*line) && line.Bin == "" && line.Rig != "" {
			continue
		}
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
		if b := best(line); b >= 0 {
			put(line, b)
		}
	}
}

const (
	// heavy is the weight from which on a line belongs low and forward of the rear axle.
	// Common practice: what takes two hands to lift.
	heavy = 8 * fieldkit.Kilogram
	// A bin without limits is taken to be as large as these. Starting guess.
	usualBinMass   = 40 * fieldkit.Kilogram
	usualBinVolume = 80 * fieldkit.Litre
)

// fullness is the share of a bin's room that is taken, by weight or by space, whichever
// is more.
func fullness(b fieldkit.Bin, mass fieldkit.Mass, volume fieldkit.Volume) float64 {
	massLimit, volumeLimit := b.MassLimit, b.VolumeLimit
	if massLimit <= 0 {
		massLimit = usualBinMass
	}
	if volumeLimit <= 0 {
		volumeLimit = usualBinVolume
	}
	return max(float64(mass)/float64(massLimit), float64(volume)/float64(volumeLimit))
}

// misplaced says how badly a line lies in a bin: the heavy belongs low and forward of the
// rear axle, tools belong where they are reached without unpacking, and nothing else
// should be in their way there. Common practice; half a bin's room outweighs none of it.
func misplaced(b fieldkit.Bin, line fieldkit.PackLine, mass fieldkit.Mass) (sum float64) {
	if mass >= heavy && !b.Low {
		sum += 2
	}
	if mass >= heavy && !b.Forward {
		sum++
	}
	if tool := line.Type == fieldkit.ToolItem; tool != b.Quick {
		sum += 0.5
	}
	return sum
}

func binNamed(bins []fieldkit.Bin, id string) int {
	return slices.IndexFunc(bins, func(b fieldkit.Bin) bool { return b.ID == id })
}
