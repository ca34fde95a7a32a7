package fieldkit

// Relabelled returns the records of a kit that hold an amount of money, with the
// currency named otherwise. Figures stay as they are: it corrects the name of a
// currency and converts nothing.
func Relabelled(k Kit, currency string) []Record {
	var changed []Record
	for _, p := range k.Parts.All() {
		if p.Price = p.Price.named(currency); p.Price != nil {
			changed = append(changed, p)
		}
	}
	for _, c := range k.Consumables {
		if c.Price = c.Price.named(currency); c.Price != nil {
			changed = append(changed, c)
		}
	}
	for _, t := range k.Tools {
		if t.Price = t.Price.named(currency); t.Price != nil {
			changed = append(changed, t)
		}
	}
	for _, t := range k.Trips {
		if t.Limits.Money = t.Limits.Money.named(currency); t.Limits.Money != nil {
			changed = append(changed, t)
		}
	}
	return changed
}

// named returns a copy in another currency, nil for no amount.
func (m *Money) named(currency string) *Money {
	if m == nil {
		return nil
	}
	return &Money{Cents: m.Cents, Currency: currency}
}
