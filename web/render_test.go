package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"image/png"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/plainpage"
)

func rendered(t *testing.T, base string) Site {
	t.Helper()
	site, err := Render(Input{Wasm: []byte("program"), WasmExec: []byte("script"), Base: base})
	require.NoError(t, err)
	return site
}

func TestSameInputGivesTheSameSite(t *testing.T) {
	assert.Equal(t, rendered(t, "/"), rendered(t, ""))
}

func TestVersionChangesWithContent(t *testing.T) {
	first := rendered(t, "/")
	seen := map[string]string{first.Version: "the first"}
	for name, in := range map[string]Input{
		"another program": {Wasm: []byte("program 2"), WasmExec: []byte("script")},
		"another script":  {Wasm: []byte("program"), WasmExec: []byte("script 2")},
		"another base":    {Wasm: []byte("program"), WasmExec: []byte("script"), Base: "/kit/"},
	} {
		site, err := Render(in)
		require.NoError(t, err, name)
		assert.NotContains(t, seen, site.Version, name)
		seen[site.Version] = name
	}
}

func TestBaseMustBeAPlainPath(t *testing.T) {
	for base, good := range map[string]bool{
		"/": true, "/kit/": true, "/a/b-c/d.e/": true,
		"kit/": false, "/kit": false, "//": false, "/../": false, "/a b/": false, `/"/`: false, "/./": false,
		"https://example.org/": false, "/a//b/": false,
	} {
		_, err := Render(Input{Wasm: []byte("p"), WasmExec: []byte("s"), Base: base})
		if good {
			assert.NoError(t, err, base)
			continue
		}
		var fault *fieldkit.Error
		if assert.ErrorAs(t, err, &fault, base) {
			assert.Equal(t, fieldkit.BadInput, fault.Kind)
		}
	}
}

func TestEmptyProgramIsRefused(t *testing.T) {
	_, err := Render(Input{WasmExec: []byte("s")})
	var fault *fieldkit.Error
	require.True(t, errors.As(err, &fault))
}

func TestNothingIsLeftToFillIn(t *testing.T) {
	for name, file := range rendered(t, "/kit/").Files {
		if file.Type == "image/png" {
			continue
		}
		assert.NotContains(t, string(file.Body), "{{", name)
		assert.NotContains(t, string(file.Body), "_DATA", name)
	}
}

// Every address a page uses is our own, under the base, and none of it is inline.
func TestPagesUseOurOwnFilesOnly(t *testing.T) {
	site := rendered(t, "/kit/")
	page := string(site.Files[Shell].Body)
	for _, at := range regexp.MustCompile(`(?:src|href)="([^"]*)"`).FindAllStringSubmatch(page, -1) {
		name, below := strings.CutPrefix(at[1], "/kit/")
		assert.True(t, below, at[1])
		assert.Contains(t, site.Files, name)
	}
	assert.NotRegexp(t, `<script(?:[^>]*)>[^<]`, page, "inline script")
	assert.NotRegexp(t, `\sstyle=|\son[a-z]+=`, page, "inline style or handler")
	assert.Equal(t, 1, strings.Count(page, "<style"))
	assert.Contains(t, page, "<style>"+firstSheet+"</style>", "the one sheet that the policy names")
	for name, file := range site.Files {
		if name == Program || strings.HasSuffix(name, ".png") {
			continue
		}
		for _, at := range regexp.MustCompile(`https?://[^\s"')]+`).FindAllString(string(file.Body), -1) {
			assert.Equal(t, "http://www.w3.org/2000/svg", at, "foreign address in %s", name)
		}
	}
}

func TestPolicyAllowsNothingForeignOrInline(t *testing.T) {
	page := string(rendered(t, "/").Files[Shell].Body)
	assert.Contains(t, page, `<meta http-equiv="Content-Security-Policy" content="`+Policy+`">`)
	assert.True(t, strings.HasPrefix(Policy, "default-src 'none'"))
	assert.NotContains(t, Policy, "unsafe-inline")
	assert.NotContains(t, strings.ReplaceAll(Policy, "'wasm-unsafe-eval'", ""), "unsafe")
	assert.NotContains(t, Policy, "//")
	assert.NotContains(t, Policy, "*")
	assert.NotContains(t, Policy, "frame-ancestors", "browsers ignore it in a page and complain")
	assert.Contains(t, HeaderPolicy, "frame-ancestors 'none'")
}

func TestDeepLinkPageIsTheShell(t *testing.T) {
	site := rendered(t, "/")
	assert.Equal(t, site.Files[Shell], site.Files[ShellDeep])
}

func TestFilesCarryTheirHash(t *testing.T) {
	for name, file := range rendered(t, "/").Files {
		sum := sha256.Sum256(file.Body)
		assert.Equal(t, hex.EncodeToString(sum[:]), file.SHA256, name)
		assert.NotEqual(t, "application/octet-stream", file.Type, name)
	}
}

// The worker's list is the whole site: each file with its hash, the page under the
// base address, and neither the worker itself nor what only hosts need.
func TestWorkerListsEveryFile(t *testing.T) {
	site := rendered(t, "/kit/")
	found := regexp.MustCompile(`\}\)\((\{.*\})\);`).FindSubmatch(site.Files[Worker].Body)
	require.NotNil(t, found)
	var listed buildInfo
	require.NoError(t, json.Unmarshal(found[1], &listed))
	assert.Equal(t, site.Version, listed.Version)
	assert.Equal(t, "/kit/", listed.Base)
	names := map[string]bool{}
	for _, file := range listed.Files {
		name := file.Path
		if name == "" {
			name = Shell
		}
		names[name] = true
		assert.Equal(t, site.Files[name].SHA256, file.SHA256, name)
		assert.Equal(t, site.Files[name].Type, file.Type, name)
	}
	for _, name := range site.Paths() {
		assert.Equal(t, name != Worker && name != ShellDeep, names[name], name)
	}
	assert.Equal(t, Program, listed.Files[len(listed.Files)-1].Path, "the largest file comes last")
}

// What go-app reads through goappGetenv, checked against its source (engine.go,
// resource.go of v10.1.11).
func TestStartScriptTellsGoAppWhereItLives(t *testing.T) {
	for base, prefix := range map[string]string{"/": "", "/kit/": "/kit"} {
		found := regexp.MustCompile(`const site = (\{.*\});`).FindSubmatch(rendered(t, base).Files["start.js"].Body)
		require.NotNil(t, found)
		var told siteInfo
		require.NoError(t, json.Unmarshal(found[1], &told))
		assert.Equal(t, prefix, told.Env["GOAPP_ROOT_PREFIX"])
		assert.Equal(t, prefix, told.Env["GOAPP_STATIC_RESOURCES_URL"])
		assert.Equal(t, told.Version, told.Env["GOAPP_VERSION"])
		var outside []string
		require.NoError(t, json.Unmarshal([]byte(told.Env["GOAPP_INTERNAL_URLS"]), &outside))
		assert.Equal(t, []string{"tel:", "sms:"}, outside)
	}
}

// Members and icon sizes that make a site installable: W3C Web Application Manifest
// and web.dev/articles/install-criteria (a name, start_url, display standalone,
// icons of 192 and 512 pixels); maskable by the same manifest specification.
func TestManifestIsInstallable(t *testing.T) {
	site := rendered(t, "/kit/")
	var manifest struct {
		ID, Name, Scope, Display string
		ShortName                string `json:"short_name"`
		StartURL                 string `json:"start_url"`
		Icons                    []struct{ Src, Sizes, Type, Purpose string }
	}
	require.NoError(t, json.Unmarshal(site.Files["manifest.webmanifest"].Body, &manifest))
	assert.Equal(t, []string{"/kit/", "/kit/", "/kit/", "standalone"},
		[]string{manifest.ID, manifest.Scope, manifest.StartURL, manifest.Display})
	assert.LessOrEqual(t, len(manifest.ShortName), 12, "longer names are cut under the icon")
	sizes := map[string]bool{}
	for _, icon := range manifest.Icons {
		file, there := site.Files[strings.TrimPrefix(icon.Src, "/kit/")]
		require.True(t, there, icon.Src)
		assert.Equal(t, file.Type, icon.Type)
		if icon.Type == "image/png" {
			picture, err := png.DecodeConfig(bytes.NewReader(file.Body))
			require.NoError(t, err, icon.Src)
			assert.Equal(t, icon.Sizes, fmt.Sprintf("%dx%d", picture.Width, picture.Height))
		}
		sizes[icon.Sizes+icon.Purpose] = true
	}
	for _, size := range []string{"192x192", "512x512", "512x512maskable"} {
		assert.True(t, sizes[size], size)
	}
}

// The worker is one expression: whatever is left of it when a download is cut short
// does not parse, and a browser refuses it.
func TestWorkerIsOneExpression(t *testing.T) {
	body := string(rendered(t, "/").Files[Worker].Body)
	assert.True(t, strings.HasPrefix(body, "(function keeper(build) {"))
	assert.Regexp(t, `\n\}\)\(\{.*\}\);\n$`, body)
}

// The way back to an earlier version is offered by what the database's version says.
func TestSchemaIsThatOfTheDatabase(t *testing.T) {
	source, err := os.ReadFile("../app/browserstore/connection_js.go")
	require.NoError(t, err)
	found := regexp.MustCompile(`(?m)^const version = (\d+)`).FindSubmatch(source)
	require.NotNil(t, found)
	assert.Equal(t, strconv.Itoa(Schema), string(found[1]), "raise web.Schema together with the version of the object stores")
}

// Plain pages in the program's own page are styled by the sheet that stands in it, so
// that they wait for no other file. The policy names it by its hash; that of the
// standard library is set beside it here.
func TestSheetOfPlainPagesIsInThePage(t *testing.T) {
	assert.True(t, strings.HasSuffix(firstSheet, plainpage.Sheet))
	assert.NotRegexp(t, `url\(|@import|expression|<`, firstSheet)
	sum := sha256.Sum256([]byte(firstSheet))
	assert.Contains(t, Policy, "style-src 'self' 'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"';")
	assert.NotContains(t, PlainPolicy(), "unsafe")
	assert.NotContains(t, PlainPolicy(), "script-src")
	assert.True(t, strings.HasPrefix(PlainPolicy(), "default-src 'none'; style-src 'sha256-"))
}

// Parts of a script share its names: one declared twice would quietly win over the other.
func TestScriptsHoldAllTheirParts(t *testing.T) {
	site := rendered(t, "/")
	declared := regexp.MustCompile(`(?m)^(?:(?:async )?function|const|let) (\w+)`)
	for folder, script := range map[string]string{"start": Start, "worker": Worker} {
		files, err := os.ReadDir(folder)
		require.NoError(t, err)
		require.NotEmpty(t, files)
		in := map[string]string{"site": "the script", "build": "the script"}
		for _, file := range files {
			part, err := os.ReadFile(folder + "/" + file.Name())
			require.NoError(t, err)
			assert.Contains(t, string(site.Files[script].Body), string(part))
			for _, found := range declared.FindAllStringSubmatch(string(part), -1) {
				assert.Empty(t, in[found[1]], "%s of %s is declared twice", found[1], file.Name())
				in[found[1]] = file.Name()
			}
		}
	}
}
