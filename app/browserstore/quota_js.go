package browserstore

import (
	"context"
	"syscall/js"
)

// Delete throws the database of that name away. It is no error if there is none.
// Other tabs that hold it let go of it; one that does not answer gives an error of
// kind Storage.
func Delete(ctx context.Context, name string) error {
	if err := explain(deleteDatabase(ctx, siteOwn, name), "delete the kit"); err != nil {
		return err
	}
	channel := openChannel(name)
	post(channel)
	closeChannel(channel)
	return nil
}

// Persist asks the browser to keep this site's data for good and reports whether
// it agreed. Some browsers ask the person; ask after the first entry, not at the
// start. A browser that knows no such thing has not agreed.
func Persist(ctx context.Context) (bool, error) {
	return ask(ctx, "persist", "keep the data for good")
}

// Persisted reports whether the browser keeps this site's data for good already.
func Persisted(ctx context.Context) (bool, error) {
	return ask(ctx, "persisted", "say whether data is kept")
}

func ask(ctx context.Context, method, doing string) (bool, error) {
	v, err := storage(ctx, method, doing)
	return err == nil && v.Type() == js.TypeBoolean && v.Bool(), err
}

// Room is how much this site keeps and may keep, in bytes. Browsers round both.
type Room struct {
	Used, Limit int64
}

// Estimate reports how much room there is; the zero Room if the browser does not
// tell.
func Estimate(ctx context.Context) (Room, error) {
	v, err := storage(ctx, "estimate", "say how much room there is")
	if err != nil || v.Type() != js.TypeObject {
		return Room{}, err
	}
	return Room{Used: int64(number(v.Get("usage"))), Limit: int64(number(v.Get("quota")))}, nil
}

// storage calls a method of navigator.storage; undefined if there is none.
func storage(ctx context.Context, method, doing string) (js.Value, error) {
	manager := js.Undefined()
	if navigator := global("navigator"); navigator.Truthy() {
		manager = navigator.Get("storage")
	}
	if !manager.Truthy() || !manager.Get(method).Truthy() {
		return js.Undefined(), nil
	}
	var promise js.Value
	err := try(func() { promise = manager.Call(method) })
	if err != nil {
		return js.Undefined(), explain(err, doing)
	}
	v, err := await(ctx, promise)
	return v, explain(err, doing)
}
