package app

import (
	"io"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// saveFile hands bytes to the system: through its share sheet where it takes
// files (phones), as a download elsewhere. Then runs on the UI goroutine and says
// what happened.
func saveFile(ctx app.Context, name, mime string, content []byte, then func(app.Context, string)) {
	saveParts(ctx, name, mime, []any{bytesToJS(content)}, func(ctx app.Context, said string, _ bool) { then(ctx, said) })
}

// saveParts is saveFile of what the browser already holds, piece by piece. Saved is
// false if the person turned away: the file is nowhere then.
func saveParts(ctx app.Context, name, mime string, parts []any, then func(ctx app.Context, said string, saved bool)) {
	file := app.Window().Get("File").New(parts, name, map[string]any{"type": mime})
	nav := app.Window().Get("navigator")
	sheet := map[string]any{"files": []any{file}, "title": name}
	canShare := nav.Get("canShare").Truthy() && nav.Get("maxTouchPoints").Int() > 0 && nav.Call("canShare", sheet).Bool()
	ctx.Async(func() {
		said, saved := "", true
		if canShare {
			if reason, ok := await(nav.Call("share", sheet)); ok {
				said = name + " was handed over."
			} else if reason.Get("name").String() == "AbortError" {
				said, saved = "Not saved: the share sheet was closed.", false
			}
		}
		if said == "" {
			download(name, file)
			said = name + " is in your downloads."
		}
		ctx.Dispatch(func(ctx app.Context) { then(ctx, said, saved) })
	})
}

// outside is a file that is written into the browser's memory: the program's own, once
// taken, is never given back.
type outside struct {
	piece  app.Value // an array that is filled again and again: fresh memory is slow
	filled int
	parts  []any // Blobs, which the browser may put on the disk
	pace   pace
}

// pieceSize is much against the cost of handing a piece over, and little memory.
const pieceSize = 1 << 20

// Write takes what is packed as it comes, a few kilobytes at a time. It must not run on
// the UI goroutine.
func (o *outside) Write(b []byte) (int, error) {
	o.pace.turn()
	if o.piece == nil {
		o.piece = app.Window().Get("Uint8Array").New(pieceSize)
	}
	for rest := b; len(rest) > 0; {
		n := app.CopyBytesToJS(o.piece.Call("subarray", o.filled), rest)
		rest = rest[n:]
		if o.filled += n; o.filled == pieceSize {
			o.flush()
		}
	}
	return len(b), nil
}

// flush makes a Blob of what was filled, which copies it.
func (o *outside) flush() {
	if o.filled > 0 {
		o.parts = append(o.parts, app.Window().Get("Blob").New([]any{o.piece.Call("subarray", 0, o.filled)}))
		o.filled = 0
	}
}

// download saves a file through a link that is pressed once.
func download(name string, file app.Value) {
	url := app.Window().Get("URL")
	address := url.Call("createObjectURL", file)
	doc := app.Window().Get("document")
	a := doc.Call("createElement", "a")
	a.Set("href", address)
	a.Set("download", name)
	doc.Get("body").Call("appendChild", a)
	a.Call("click")
	a.Call("remove")
	// The browser reads the address after this turn; a minute is ample.
	app.Window().Call("setTimeout", app.FuncOf(func(app.Value, []app.Value) any {
		url.Call("revokeObjectURL", address)
		return nil
	}), 60_000)
}

// nameOf is the name of a file, fit to be shown and written down: it comes from outside.
func nameOf(file app.Value) string { return shownName(file.Get("name").String()) }

func shownName(name string) string { return short(fieldkit.WithoutHidden(name, false), 60) }

// fileOf gives a file the person chose, to be read piece by piece: the program never
// holds more of it than it works on. Reading waits and must not be done on the UI
// goroutine. The size is checked first, so that a mistaken choice is not read at all.
func fileOf(file app.Value, most int64) (*io.SectionReader, error) {
	size := int64(file.Get("size").Int())
	if size > most {
		return nil, badField(nameOf(file)+" is too large to be this", "choose a backup made by this app")
	}
	return io.NewSectionReader(&chosenFile{file: file}, 0, size), nil
}

// chosenFile reads a file of the browser, a larger piece at a time than what it is
// asked for: files in an archive are small and stand in a row.
type chosenFile struct {
	file  app.Value
	at    int64 // of the piece
	piece []byte
}

func (c *chosenFile) ReadAt(b []byte, off int64) (n int, err error) {
	for n < len(b) {
		at := off + int64(n)
		if at < c.at || at >= c.at+int64(len(c.piece)) {
			if err := c.turnTo(at); err != nil {
				return n, err
			}
			if len(c.piece) == 0 {
				return n, io.EOF
			}
		}
		n += copy(b[n:], c.piece[at-c.at:])
	}
	return n, nil
}

// turnTo reads the piece that begins at a place.
func (c *chosenFile) turnTo(at int64) error {
	unread := badField(nameOf(c.file)+" cannot be read", "copy it to the phone itself and choose it again")
	buffer, ok := await(c.file.Call("slice", at, at+pieceSize).Call("arrayBuffer"))
	if !ok {
		return unread
	}
	bytes := app.Window().Get("Uint8Array").New(buffer)
	if c.piece == nil {
		c.piece = make([]byte, pieceSize)
	}
	c.at, c.piece = at, c.piece[:bytes.Get("length").Int()]
	if app.CopyBytesToGo(c.piece, bytes) != len(c.piece) {
		c.piece = c.piece[:0]
		return unread
	}
	return nil
}

func bytesToJS(b []byte) app.Value {
	v := app.Window().Get("Uint8Array").New(len(b))
	app.CopyBytesToJS(v, b)
	return v
}

func bytesFromJS(v app.Value) []byte {
	b := make([]byte, v.Get("length").Int())
	app.CopyBytesToGo(b, v)
	return b
}

// chooseFile draws a button that opens the system's file or camera sheet.
// Accept is a list of types as in HTML; camera asks for the camera first.
func chooseFile(class, label, scope, accept string, camera bool, chosen func(app.Context, app.Value)) app.UI {
	id := "file-" + scope
	input := app.Input().Type("file").ID(id).Class("file").Accept(accept).
		OnChange(func(ctx app.Context, _ app.Event) {
			files := ctx.JSSrc().Get("files")
			if files.Get("length").Int() > 0 {
				file := files.Index(0)
				ctx.JSSrc().Set("value", "") // the same file can be chosen again
				chosen(ctx, file)
			}
		}, app.EventScope(scope))
	if camera {
		input = input.Attr("capture", "environment")
	}
	return app.Div().Class("block").Body(
		input,
		app.Label().For(id).Class(class).Text(label),
	)
}
