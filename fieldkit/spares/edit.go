package spares

import (
	"slices"

	"trailfieldkit/fieldkit"
)

// MaxCount bounds the pieces on one line of a packing list.
const MaxCount = 999

// Tick returns the list with a line ticked off as packed, or not. It does nothing
// if the line is not there.
func Tick(p fieldkit.Pack, ref Ref, packed bool) fieldkit.Pack {
	return change(p, ref, func(l *fieldkit.PackLine) { l.Packed = packed })
}

// SetCount returns the list with that many pieces of something, adding the line if
// it is not there. What was set by hand holds when the trip is planned again: a line is
// pinned, and of what was taken off down to nothing, nothing comes along (see Ban).
// More than MaxCount pieces become MaxCount.
func SetCount(p fieldkit.Pack, ref Ref, count int) fieldkit.Pack {
	if count <= 0 {
		if indexOf(p, ref) < 0 {
			return p
		}
		return Ban(p, ref)
	}
	if indexOf(p, ref) < 0 {
		p.Lines = append(slices.Clip(p.Lines), fieldkit.PackLine{Type: ref.Type, Item: ref.Item})
		p = Allow(p, ref)
	}
	p.ByHand = true
	return change(p, ref, func(l *fieldkit.PackLine) {
		count = min(count, MaxCount)
		l.Packed = l.Packed && count <= l.Count
		l.Count, l.Pinned = count, true
	})
}

// Pin returns the list with a line that stays when the trip is planned again, or
// one that no longer does.
func Pin(p fieldkit.Pack, ref Ref, pinned bool) fieldkit.Pack {
	return change(p, ref, func(l *fieldkit.PackLine) { l.Pinned = pinned })
}

// Stays reports whether planning again keeps a line as it is: it was set by hand, or is
// ticked and lies in its bin already.
func Stays(l fieldkit.PackLine) bool { return l.Pinned || l.Packed }

// Move returns the list with a line in another bin, or in none on a rig: rig is for a
// line in no bin, whose bin is "".
func Move(p fieldkit.Pack, ref Ref, bin, rig string) fieldkit.Pack {
	p.ByHand = p.ByHand || indexOf(p, ref) >= 0
	if bin != "" {
		rig = ""
	}
	return change(p, ref, func(l *fieldkit.PackLine) { l.Bin, l.Rig = bin, rig })
}

// Remove returns the list without a line. Planning again may bring it back; Ban
// keeps it out.
func Remove(p fieldkit.Pack, ref Ref) fieldkit.Pack {
	i := indexOf(p, ref)
	if i < 0 {
		return p
	}
	p.Lines, p.ByHand = slices.Delete(slices.Clone(p.Lines), i, i+1), true
	return p
}

// Ban returns the list without something that stays at home on purpose, however
// often the trip is planned.
func Ban(p fieldkit.Pack, ref Ref) fieldkit.Pack {
	p = Remove(p, ref)
	if banned(&p, ref) {
		return p
	}
	p.Never = append(slices.Clip(p.Never), fieldkit.Item{Type: ref.Type, Item: ref.Item})
	p.ByHand = true
	return p
}

// Allow returns the list on which something is no longer banned.
func Allow(p fieldkit.Pack, ref Ref) fieldkit.Pack {
	if !banned(&p, ref) {
		return p
	}
	p.Never = slices.DeleteFunc(slices.Clone(p.Never), func(i fieldkit.Item) bool { return i.Type == ref.Type && i.Item == ref.Item })
	p.ByHand = true
	return p
}

// banned reports whether something stays at home on purpose.
func banned(p *fieldkit.Pack, ref Ref) bool {
	return p != nil && slices.ContainsFunc(p.Never, func(i fieldkit.Item) bool { return i.Type == ref.Type && i.Item == ref.Item })
}

// change returns the list with a changed copy of one line. The lines given are not
// touched: older snapshots share them.
func change(p fieldkit.Pack, ref Ref, edit func(*fieldkit.PackLine)) fieldkit.Pack {
	if i := indexOf(p, ref); i >= 0 {
		p.Lines = slices.Clone(p.Lines)
		edit(&p.Lines[i])
	}
	return p
}

func indexOf(p fieldkit.Pack, ref Ref) int {
	return slices.IndexFunc(p.Lines, func(l fieldkit.PackLine) bool { return RefOf(l) == ref })
}
