package app

import (
	"context"
	"encoding/base64"
	"encoding/json"
	"slices"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit/journal"
)

// mostPhotos is how many photos one entry holds.
const mostPhotos = 8

// photoRoll is the photos of one entry: those kept already and those added in the
// form. Added ones are kept on the device until the form is saved, so that a dead
// phone does not lose them.
type photoRoll struct {
	key    string // under which added photos are remembered
	photos []photo
	large  string // hash of the photo shown as wide as the screen
	err    error
	busy   bool
}

type photo struct {
	blob    journal.Blob // without bytes until loaded
	added   bool
	failed  bool   // it could not be read
	address string // under which the page shows it
}

// newPhotoRoll loads the photos of an entry and those added but not saved.
func newPhotoRoll(ctx app.Context, key string, hashes []string) *photoRoll {
	r := &photoRoll{key: key}
	for _, h := range hashes {
		r.photos = append(r.photos, photo{blob: journal.Blob{Hash: h}})
	}
	var added []journal.Blob
	if text, err := base64.StdEncoding.DecodeString(remembered(key)); err == nil && json.Unmarshal(text, &added) == nil {
		for _, b := range added {
			r.photos = append(r.photos, photo{blob: b, added: true, address: photoURL(b)})
		}
	}
	session := kept.session
	if len(hashes) == 0 || session == nil {
		return r
	}
	ctx.Async(func() {
		for _, h := range hashes {
			b, err := session.Blob(context.Background(), h)
			ctx.Dispatch(func(app.Context) {
				i := slices.IndexFunc(r.photos, func(p photo) bool { return p.blob.Hash == h && !p.added })
				switch {
				case i < 0: // removed meanwhile
				case err != nil:
					r.err, r.photos[i].failed = err, true
				default:
					r.photos[i].blob, r.photos[i].address = b, photoURL(b)
				}
			})
		}
	})
	return r
}

func (r *photoRoll) draw() app.UI {
	return app.Div().Class("block").Body(
		app.Div().Class("photos").Hidden(len(r.photos) == 0).Body(app.Range(r.photos).Slice(func(i int) app.UI {
			p := r.photos[i]
			if p.address == "" {
				return app.Figure().Body(app.P().Class("soft").Text(p.waits()), r.removing(i))
			}
			large := r.large == p.blob.Hash
			return app.Figure().Class(map[bool]string{true: "large"}[large]).Body(
				app.Button().Type("button").Aria("expanded", strconv.FormatBool(large)).Aria("label", "Photo "+itoa(i+1)+", large or small").
					OnClick(func(app.Context, app.Event) { r.enlarge(p.blob.Hash) }, app.EventScope(p.blob.Hash)).
					Body(app.Img().Src(p.address).Alt("Photo "+itoa(i+1))),
				r.removing(i),
			)
		})),
		app.If(len(r.photos) < mostPhotos, func() app.UI {
			return chooseFile("quiet wide", "Add a photo", "photo "+r.key, "image/*", false, r.add)
		}),
		app.If(r.busy, func() app.UI { return app.P().Class("soft").Text("Making the photo smaller …") }),
		problem(r.err),
	)
}

// removing is the button below a photo, there before the photo is.
func (r *photoRoll) removing(i int) app.UI {
	hash := r.photos[i].blob.Hash
	return button("link no-print", "Remove photo "+itoa(i+1), "photo "+hash, func(app.Context) { r.remove(hash) })
}

// waits says what stands in the place of a photo that is not shown.
func (p photo) waits() string {
	if p.failed {
		return "This photo cannot be read."
	}
	return "Loading photo …"
}

// enlarge shows a photo as wide as the screen, or small again.
func (r *photoRoll) enlarge(hash string) {
	if r.large == hash {
		hash = ""
	}
	r.large = hash
}

func (r *photoRoll) add(ctx app.Context, file app.Value) {
	r.busy, r.err = true, nil
	withPlace := kept.prefs.KeepPlace
	kept.work(ctx, func() {
		b, err := shrinkPhoto(file, withPlace)
		ctx.Dispatch(func(app.Context) {
			r.busy, r.err = false, err
			if err != nil || slices.ContainsFunc(r.photos, func(p photo) bool { return p.blob.Hash == b.Hash }) {
				return
			}
			r.photos = append(r.photos, photo{blob: b, added: true, address: photoURL(b)})
			r.rememberAdded()
		})
	})
}

func (r *photoRoll) remove(hash string) {
	r.photos = slices.DeleteFunc(r.photos, func(p photo) bool {
		if p.blob.Hash == hash {
			if p.failed {
				r.err = nil
			}
			dropURL(p.address)
			return true
		}
		return false
	})
	r.rememberAdded()
}

func (r *photoRoll) rememberAdded() {
	added := r.blobs()
	if len(added) == 0 {
		remember(r.key, "")
		return
	}
	if text, err := json.Marshal(added); err == nil {
		remember(r.key, base64.StdEncoding.EncodeToString(text))
	}
}

// blobs returns the photos to write with the entry.
func (r *photoRoll) blobs() []journal.Blob {
	var list []journal.Blob
	for _, p := range r.photos {
		if p.added {
			list = append(list, p.blob)
		}
	}
	return list
}

// hashes returns what the entry refers to.
func (r *photoRoll) hashes() []string {
	var list []string
	for _, p := range r.photos {
		list = append(list, p.blob.Hash)
	}
	return list
}

// passOn remembers the added photos for the form of the entry they belong to: there was
// no room to keep them with it.
func (r *photoRoll) passOn(key string) {
	if key != r.key {
		remember(key, remembered(r.key))
		remember(r.key, "")
	}
}

// done forgets the added photos once they are saved.
func (r *photoRoll) done() { remember(r.key, "") }

// drop lets go of the addresses when the screen is left.
func (r *photoRoll) drop() {
	for _, p := range r.photos {
		if p.address != "" {
			dropURL(p.address)
		}
	}
}
