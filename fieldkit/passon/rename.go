package passon

import "trailfieldkit/fieldkit"

// renamed returns the records of a bundle with other IDs: id gives the new one for
// a record of a collection. References follow.
func renamed(k fieldkit.Kit, id func(collection, old string) string) fieldkit.Kit {
	to := func(collection string, field *string) {
		if *field != "" {
			*field = id(collection, *field)
		}
	}
	out := k
	out.Rigs = copied(k.Rigs, func(r *fieldkit.Rig) { to("rigs", &r.ID) })
	out.Systems = copied(k.Systems, func(s *fieldkit.Assembly) { to("systems", &s.ID); to("rigs", &s.Rig) })
	out.Positions = fieldkit.ListOf(copied(k.Positions.Slice(), func(p *fieldkit.Position) {
		to("positions", &p.ID)
		to("systems", &p.System)
		to("positions", &p.Parent)
		to("parts", &p.Part)
	}))
	out.Donors = copied(k.Donors, func(d *fieldkit.Donor) { to("donors", &d.ID) })
	out.Parts = fieldkit.ListOf(copied(k.Parts.Slice(), func(p *fieldkit.Part) {
		to("parts", &p.ID)
		to("donors", &p.Donor)
		p.LookAlikes = copied(p.LookAlikes, func(a *fieldkit.LookAlike) { to("parts", &a.Part) })
	}))
	out.Links = fieldkit.ListOf(copied(k.Links.Slice(), func(l *fieldkit.Link) { to("links", &l.ID); to("parts", &l.For); to("parts", &l.With) }))
	out.Bins = copied(k.Bins, func(b *fieldkit.Bin) { to("bins", &b.ID); to("rigs", &b.Rig) })
	out.Spares = fieldkit.ListOf(copied(k.Spares.Slice(), func(s *fieldkit.Spare) { to("spares", &s.ID); to("parts", &s.Part); to("bins", &s.Bin) }))
	return out
}

// copied changes the entries of a copy of a list.
func copied[T any](list []T, change func(*T)) []T {
	out := append([]T(nil), list...)
	for i := range out {
		change(&out[i])
	}
	return out
}
