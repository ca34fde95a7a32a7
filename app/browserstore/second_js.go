package browserstore

import (
	"context"
	"errors"
	"syscall/js"

	"trailfieldkit/fieldkit/journal"
)

// secondBucket is where second copies lie. A browser that has storage buckets keeps the
// files of each apart, and throws away only those that it finds damaged.
const secondBucket = "second-copy"

// OpenSecond opens the store of a second copy, creating it if there is none; nil where the
// browser has no storage buckets. Other tabs are not told of what is written to it. Errors
// are those of Open.
func OpenSecond(ctx context.Context, name string) (journal.Store, error) {
	bucket, err := openBucket(ctx)
	if err != nil || !bucket.Truthy() {
		return nil, err
	}
	s, err := open(ctx, bucket, name, js.Undefined())
	if err != nil {
		return nil, err
	}
	return s, nil
}

// SecondNames lists the second copies there are; none where the browser has no storage
// buckets, or does not tell.
func SecondNames(ctx context.Context) (names []string, err error) {
	bucket, err := openBucket(ctx)
	if err != nil || !bucket.Truthy() {
		return nil, err
	}
	var promise js.Value
	if err := try(func() { promise = bucket.Call("databases") }); err != nil {
		return nil, explain(err, "list the second copies")
	}
	all, err := awaitSoon(ctx, promise)
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
	bucket, err := openBucket(ctx)
	if err != nil || !bucket.Truthy() {
		return err
	}
	return explain(deleteDatabase(ctx, bucket, name), "delete the second copy of the kit")
}

// openBucket gives what hands out the databases of the bucket, undefined where there are
// no buckets.
func openBucket(ctx context.Context) (js.Value, error) {
	buckets := js.Undefined()
	if navigator := global("navigator"); navigator.Truthy() {
		buckets = navigator.Get("storageBuckets")
	}
	if !buckets.Truthy() {
		return js.Undefined(), nil
	}
	var promise js.Value
	wanted := object(map[string]any{"durability": "strict"})
	if err := try(func() { promise = buckets.Call("open", secondBucket, wanted) }); err != nil {
		return js.Undefined(), explain(err, "open the second copy of the kit")
	}
	bucket, err := awaitSoon(ctx, promise)
	if err != nil {
		return js.Undefined(), explain(err, "open the second copy of the kit")
	}
	var factory js.Value
	err = try(func() { factory = bucket.Get("indexedDB") })
	return factory, explain(err, "open the second copy of the kit")
}

// awaitSoon is await within openLimit: a person may wait in front of it.
func awaitSoon(ctx context.Context, promise js.Value) (js.Value, error) {
	limited, cancel := context.WithTimeout(ctx, openLimit)
	defer cancel()
	v, err := await(limited, promise)
	if errors.Is(err, context.DeadlineExceeded) {
		err = errSilent
	}
	return v, err
}
