package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"strings"
)

// The two scripts are written in parts of one idea each, in folders, and served as one
// file each: a start waits for no more requests, and one hash vouches for all of it.
//
//go:embed start/*.js worker/*.js
var parts embed.FS

// The start script knows site, what it is told by SITE_DATA, in all its parts.
const (
	startOpens  = "(() => {\n'use strict';\nconst site = SITE_DATA; // {base, version, worker, plainPolicy, env}\n"
	startCloses = "start();\n})();\n"
)

// The worker is one expression: a script cut short anywhere does not parse, and is
// refused. build is what it is told by BUILD_DATA, in all its parts.
const (
	workerOpens  = "(function keeper(build) {\n'use strict';\n"
	workerCloses = "})(BUILD_DATA);\n"
)

// scripts puts the parts of each script together, in the order of their names.
func scripts() (start, worker []byte, err error) {
	if start, err = joined("start", startOpens, startCloses); err != nil {
		return nil, nil, err
	}
	worker, err = joined("worker", workerOpens, workerCloses)
	return start, worker, err
}

func joined(folder, opens, closes string) ([]byte, error) {
	var out bytes.Buffer
	out.WriteString(opens)
	names, err := fs.Glob(parts, folder+"/*.js") // sorted
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		part, err := parts.ReadFile(name)
		if err != nil {
			return nil, err
		}
		out.WriteString("\n// ---- " + strings.TrimPrefix(name, folder+"/") + "\n\n")
		out.Write(part)
	}
	out.WriteString(closes)
	return out.Bytes(), nil
}

// workerSum is the SHA-256 of what runs in the worker: its code as JavaScript gives it
// back, and its list of files without their hashes. They cannot be in it, because
// start.js, which holds the sum, is one of the files.
func workerSum(s Site, raw map[string][]byte) string {
	code := raw[Worker][bytes.Index(raw[Worker], []byte("function keeper(")):bytes.LastIndex(raw[Worker], []byte(")(BUILD_DATA)"))]
	list := Site{Base: s.Base, Version: s.Version, Files: map[string]File{}}
	for name := range raw {
		if name != Worker {
			list.Files[name] = File{Type: mediaType(name)}
		}
	}
	sum := sha256.Sum256([]byte(string(code) + "\n" + encode(buildData(list))))
	return hex.EncodeToString(sum[:])
}
