package browserstore

import (
	"context"
	"errors"
	"runtime"
	"syscall/js"

	"trailfieldkit/fieldkit/journal"
)

// secondBucket is where second copies lie. A browser that has storage buckets keeps the
// files of each apart, and throws away only those that it finds damaged.
const secondBucket = "second-copy"

// OpenSecond opens the store of a second copy, creating it if there is none; nil where the
// browser has no storage buckets. Other tabs are not told of what is written to it. Errors
// are those of Open.
func OpenSecond(ctx context.Context, name string) (journal.Copy, error) {
	if !buckets().Truthy() {
		return nil, nil
	}
	s, err := open(ctx, secondPlace, name, js.Undefined(), DeleteSecond)
	if err != nil {
		return nil, err
	}
	return s, nil
}

// OpenSecondWreck opens the second copy of that name as it is, like OpenWreck.
func OpenSecondWreck(ctx context.Context, name string) (*Wreck, error) {
	if !buckets().Truthy() {
		return nil, errNoWreck
	}
	return openWreck(ctx, secondPlace, name)
}

// SecondNames lists the second copies there are; none where the browser has no storage
// buckets, or does not tell.
func SecondNames(ctx context.Context) (names []string, err error) {
	if !buckets().Truthy() {
		return nil, nil
	}
	factory, err := secondPlace(ctx)
	if err != nil {
		return nil, explain(err, "list the second copies")
	}
	all, err := called(ctx, factory, "databases")
	if err != nil {
		return nil, explain(err, "list the second copies")
	}
	for _, one := range list(all) {
		names = append(names, text(one.Get("name")))
	}
	return names, nil
}

// DeleteSecond throws the second copy of that name away. It is no error if there is none.
func DeleteSecond(ctx context.Context, name string) error {
	if !buckets().Truthy() {
		return nil
	}
	return explain(deleteDatabase(ctx, secondPlace, name), "delete the second copy of the kit")
}

// GiveUp implements journal.Copy. A bucket in which nothing is left goes too: only then do
// browsers give the room of entries back at once. What is written into a new one in the
// next moment has been seen to hang, so nothing else throws buckets away.
func (s *Store) GiveUp(ctx context.Context) error {
	if err := s.Delete(ctx); err != nil {
		return err
	}
	if left, err := SecondNames(ctx); err == nil && len(left) == 0 && buckets().Truthy() {
		_, _ = called(ctx, buckets(), "delete", secondBucket) // the copy is gone as it is
	}
	return nil
}

// DeleteBoth throws a kit away for good, its second copy first: it must not bring the kit
// back. Errors are those of Delete.
func DeleteBoth(ctx context.Context, name string) error {
	if err := DeleteSecond(ctx, name); err != nil {
		return err
	}
	if err := Delete(ctx, name); err != nil {
		return err
	}
	return DeleteSecond(ctx, name) // another tab may have copied in between
}

// buckets is the browser's way to storage buckets, undefined where it has none.
func buckets() js.Value {
	if navigator := global("navigator"); navigator.Truthy() {
		return navigator.Get("storageBuckets")
	}
	return js.Undefined()
}

// secondPlace gives what hands out the databases of the bucket, making it if need be.
func secondPlace(ctx context.Context) (js.Value, error) {
	bucket, err := called(ctx, buckets(), "open", secondBucket, object(map[string]any{"durability": "strict"}))
	if err != nil {
		return js.Undefined(), err
	}
	factory := js.Undefined()
	err = try(func() { factory = bucket.Get("indexedDB") })
	return factory, err
}

// called calls what gives a promise and waits for it within openLimit: a person may wait
// in front of it.
func called(ctx context.Context, on js.Value, method string, args ...any) (js.Value, error) {
	var promise js.Value
	if err := try(func() { promise = on.Call(method, args...) }); err != nil {
		return js.Undefined(), err
	}
	limited, cancel := context.WithTimeout(ctx, openLimit)
	defer cancel()
	v, err := await(limited, promise)
	runtime.KeepAlive(on)
	if errors.Is(err, context.DeadlineExceeded) {
		err = errSilent
	}
	return v, err
}
