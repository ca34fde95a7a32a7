package app

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/passon"
)

// friendBlock adds rigs of another crew's backup beside one's own, marked as theirs.
type friendBlock struct {
	chosen map[string]bool // rigs, by ID in the backup
	owner  *form
}

func (b *backupBlock) drawFriend() app.UI {
	if b.merge.same || len(b.chosen.Kit.Rigs) == 0 || kept.session == nil {
		return app.Div().Hidden(true)
	}
	k := kept.kit()
	f := &b.friend
	if f.owner == nil {
		f.owner, f.chosen = newForm("friend/"+b.chosen.Kit.ID, map[string]string{"owner": b.chosen.Kit.Name}), map[string]bool{}
		for _, r := range b.chosen.Kit.Rigs {
			f.chosen[r.ID] = len(b.chosen.Kit.Rigs) == 1
		}
	}
	body := []app.UI{
		app.P().Class("strong").Text("It is another crew's kit. Its rigs can stand beside yours, marked as theirs, with their positions, parts, donors, interchange, bins and spares. The log stays with them."),
	}
	for _, r := range b.chosen.Kit.Rigs {
		detail := ""
		if _, there := k.Rig(passon.FriendsRig(b.chosen.Kit.ID, r.ID)); there {
			detail = "beside yours already: adding it again brings it up to date"
		}
		body = append(body, tick(r.Name, detail, "friend "+r.ID, f.chosen[r.ID], func(app.Context) { f.chosen[r.ID] = !f.chosen[r.ID] }))
	}
	body = append(body,
		f.owner.text("owner", "Whose they are", "shown with the rig"),
		button("quiet wide", "Add beside mine", "friend now", b.addFriend),
	)
	return app.Div().Class("block").Body(body...)
}

func (b *backupBlock) addFriend(ctx app.Context) {
	theirs, owner := b.chosen.Kit, b.friend.owner.typed("owner")
	var rigs, names []string
	for _, r := range theirs.Rigs {
		if b.friend.chosen[r.ID] {
			rigs, names = append(rigs, r.ID), append(names, r.Name)
		}
	}
	switch {
	case len(rigs) == 0:
		b.err = badField("no rig is chosen", "tick the rigs to add")
		return
	case owner == "":
		b.friend.owner.refuse("owner", badField("it is not said whose rigs they are", "write a name"))
		b.err = showWrong(ctx)
		return
	case !b.friend.owner.short():
		b.err = showWrong(ctx)
		return
	}
	kept.do(ctx, "Added "+strings.Join(names, " and ")+" of "+owner, func(e *journal.Edit) error {
		for _, r := range passon.RigsInto(e.Kit(), theirs, owner, rigs...).Put {
			e.Put(r)
		}
		return nil
	}, func(ctx app.Context, err error) {
		if b.err = err; err != nil {
			return
		}
		b.friend.owner.done()
		b.chosen, b.friend = nil, friendBlock{}
		goOn(ctx, link("/rig", "rig", passon.FriendsRig(theirs.ID, rigs[0])))
	})
}

// rigName is what a rig is called where it must not be mistaken for one's own.
func rigName(r fieldkit.Rig) string {
	if r.Owner == "" {
		return r.Name
	}
	return r.Name + " (" + r.Owner + ")"
}
