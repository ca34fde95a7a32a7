package repair

import "trailfieldkit/fieldkit"

// Short is something that was used beyond what the stock says was there.
type Short struct {
	Item    fieldkit.Item
	Missing int // pieces
}

// Use gives the records whose stock changes when items are used up, and what the
// stock did not hold: counts never go below zero. Tools are not used up. The kit
// itself is not changed.
func Use(kit fieldkit.Kit, items []fieldkit.Item) ([]fieldkit.Record, []Short) {
	return Adjust(kit, nil, items)
}

// Adjust gives the records whose stock changes when a log entry that used before
// is corrected to have used after: the difference is taken from stock or put
// back. Adjust(kit, used, nil) puts everything back.
func Adjust(kit fieldkit.Kit, before, after []fieldkit.Item) (changed []fieldkit.Record, short []Short) {
	for _, need := range difference(before, after) {
		records, missing := take(kit, need)
		changed = append(changed, records...)
		if missing > 0 {
			short = append(short, Short{Item: need, Missing: missing})
		}
	}
	return changed, short
}

// difference sums what is taken (positive) and put back (negative) for each item,
// in the order items are first named.
func difference(before, after []fieldkit.Item) []fieldkit.Item {
	var sum []fieldkit.Item
	add := func(items []fieldkit.Item, sign int) {
		for _, it := range items {
			i := 0
			for i < len(sum) && (sum[i].Type != it.Type || sum[i].Item != it.Item) {
				i++
			}
			if i == len(sum) {
				sum = append(sum, fieldkit.Item{Type: it.Type, Item: it.Item})
			}
			sum[i].Count += sign * max(it.Count, 0)
		}
	}
	add(after, 1)
	add(before, -1)
	return sum
}

// take lowers the records an item is kept in, in file order, or raises the first
// of them when the count is negative.
func take(kit fieldkit.Kit, it fieldkit.Item) (changed []fieldkit.Record, missing int) {
	left := it.Count
	lower := func(count int) int {
		after := max(count-left, 0)
		left -= count - after
		return after
	}
	switch it.Type {
	case fieldkit.SpareItem:
		for _, s := range kit.Spares.All() {
			if n := s.Count; s.Part == it.Item && left != 0 {
				if s.Count = lower(s.Count); s.Count != n {
					changed = append(changed, s)
				}
			}
		}
	case fieldkit.ConsumableItem:
		if c, ok := fieldkit.Find(kit.Consumables, it.Item); ok {
			if n := c.Count; left != 0 {
				if c.Count = lower(c.Count); c.Count != n {
					changed = append(changed, c)
				}
			}
		}
	default:
		return nil, 0
	}
	return changed, max(left, 0)
}
