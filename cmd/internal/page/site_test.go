package page

import (
	"compress/gzip"
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What the policy would refuse must not be there to be missed: code and style
// inside a page, and code made of text.
var (
	inlineCode  = regexp.MustCompile(`(?is)<script(?:\s[^>]*)?>\s*[^<\s]|<style|\sstyle\s*=|\son[a-z]+\s*=|javascript:`)
	madeOfText  = regexp.MustCompile(`\beval\s*\(|new\s+Function\s*\(|\.(?:inner|outer)HTML\s*[+]?=|insertAdjacentHTML|document\.write\s*\(`)
	fromOutside = regexp.MustCompile(`(?i)(?:src|href|action)\s*=\s*["']?(?:https?:)?//|url\(\s*["']?(?:https?:)?//|@import|(?:from|import)\s*\(?\s*["'](?:https?:)?//|fetch\(\s*["'](?:https?:)?//`)
)

// each calls f with every asset that is ours.
func each(t *testing.T, f func(name, text string)) {
	t.Helper()
	below, err := fs.Sub(assets, "site")
	require.NoError(t, err)
	eachOf(t, below, f)
}

// eachSource is each of what the assets are made of, too.
func eachSource(t *testing.T, f func(name, text string)) {
	t.Helper()
	eachOf(t, os.DirFS("site"), func(name, text string) {
		if !strings.HasPrefix(name, "joined/") {
			f(name, text)
		}
	})
}

func eachOf(t *testing.T, files fs.FS, f func(name, text string)) {
	t.Helper()
	count := 0
	require.NoError(t, fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(files, name)
		require.NoError(t, err)
		count++
		f(name, string(data))
		return nil
	}))
	assert.Positive(t, count)
}

var imported = regexp.MustCompile(`(?m)^import \{([^}]*)\} from`)

// A name that a script imports twice, as two changes may once they are joined, is no script
// to a browser, and the page then stays empty.
func TestNoScriptImportsANameTwice(t *testing.T) {
	eachSource(t, func(name, text string) {
		seen := map[string]bool{}
		for _, m := range imported.FindAllStringSubmatch(text, -1) {
			for word := range strings.SplitSeq(m[1], ",") {
				word = strings.TrimSpace(word)
				assert.False(t, seen[word], "%s imports %s twice", name, word)
				seen[word] = true
			}
		}
	})
}

func TestAssetsKeepToThePolicy(t *testing.T) {
	eachSource(t, func(name, text string) {
		vendored := strings.HasPrefix(name, "vendor/")
		switch path.Ext(name) {
		case ".html", ".svg":
			assert.NotRegexp(t, inlineCode, text, name)
			assert.NotRegexp(t, fromOutside, text, name)
		case ".css":
			assert.NotRegexp(t, fromOutside, text, name)
		case ".js", ".mjs":
			assert.NotRegexp(t, fromOutside, text, name)
			if !vendored {
				assert.NotRegexp(t, madeOfText, text, name)
			}
		}
	})
}

// The patterns find what they are for.
func TestThePolicysPatternsFind(t *testing.T) {
	for _, bad := range []string{`<script>go()</script>`, `<style>`, `<p style="x">`, `<p onclick="x">`, `<a href="javascript:x">`} {
		assert.Regexp(t, inlineCode, bad)
	}
	for _, bad := range []string{`eval(x)`, `new Function(x)`, `a.innerHTML = x`, `a.innerHTML += x`, `document.write(x)`} {
		assert.Regexp(t, madeOfText, bad)
	}
	for _, bad := range []string{`<img src="//x">`, `url(https://x)`, `import "https://x"`, `import("//x")`, `fetch("http://x")`, `@import`} {
		assert.Regexp(t, fromOutside, bad)
	}
	for _, fine := range []string{`<script type="module" src="script/main.js"></script>`, `fetch("/api/plan")`, `import { x } from "./x.js"`} {
		assert.NotRegexp(t, inlineCode, fine)
		assert.NotRegexp(t, fromOutside, fine)
	}
}

func assetAt(name string) string { return assetPath + theSite().version + "/" + name }

// askedFor asks for an asset as a browser does that takes some encodings.
func askedFor(s *Server, name string, takes ...string) *httptest.ResponseRecorder {
	r := request(s, http.MethodGet, name, nil)
	r.Header.Del(keyHeader)
	for _, t := range takes {
		r.Header.Add("Accept-Encoding", t)
	}
	return served(s, r)
}

// A browser that is told not to guess runs nothing whose kind is not told.
func TestAssetsHaveTheirKind(t *testing.T) {
	s, _ := opened(t)
	kinds := map[string]string{".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml", "": "text/plain"}
	each(t, func(name, text string) {
		want, known := kinds[path.Ext(name)]
		require.True(t, known, name)
		w := askedFor(s, assetAt(name))
		assert.Equal(t, http.StatusOK, w.Code, name)
		assert.Equal(t, want+"; charset=utf-8", w.Header().Get("Content-Type"), name)
		assert.Equal(t, text, w.Body.String(), name)
	})
	w := served(s, request(s, http.MethodGet, "/", nil))
	assert.Equal(t, "text/html; charset=utf-8", w.Header().Get("Content-Type"))
	old := strings.Repeat("0", 2*versionBytes)
	for _, none := range []string{
		"/../server.go", "/..%2fserver.go", "/site/index.html", "/%2e%2e/key.go", "/server.go", "/joined/main.js", "/index.html",
		assetPath, assetAt(""), assetAt("nosuch.js"), assetAt("joined"), assetAt("script/main.js"), assetAt("../site.go"), assetAt("..%2fsite.go"), assetPath + old + "/joined/main.js",
	} {
		w := served(s, request(s, http.MethodGet, none, nil))
		assert.NotEqual(t, http.StatusOK, w.Code, none)
		assert.NotContains(t, w.Body.String(), "package page", none)
	}
}

// What a version has is never asked for again; which version, always.
func TestAssetsAreKeptByTheBrowser(t *testing.T) {
	s, _ := opened(t)
	w := askedFor(s, assetAt("joined/main.js"))
	assert.Equal(t, "max-age=31536000, immutable", w.Header().Get("Cache-Control"))
	for name, value := range headers {
		if name != "Cache-Control" {
			assert.Equal(t, value, w.Header().Get(name), name)
		}
	}
	page := askedFor(s, "/")
	guarded(t, page) // and is not kept
	count := 0
	for _, m := range linked().FindAllStringSubmatch(page.Body.String(), -1) {
		if strings.HasSuffix(m[3], "/") {
			continue // the guide
		}
		assert.True(t, strings.HasPrefix("/"+m[3], assetAt("")), m[3])
		assert.Equal(t, http.StatusOK, askedFor(s, "/"+m[3]).Code, m[3])
		count++
	}
	assert.Greater(t, count, 3)
	guarded(t, askedFor(s, assetAt("nosuch.js")))
}

// Another text, or another name, is another version.
func TestTheVersionIsThatOfWhatIsInIt(t *testing.T) {
	assert.Len(t, theSite().version, 2*versionBytes)
	s := site{version: "v", files: map[string]asset{"script/a.js": {}, "b.svg": {}}}
	for html, want := range map[string]string{
		`<script src="script/a.js">`:      `<script src="a/v/script/a.js">`,
		`<link href="../../b.svg" x>`:     `<link href="../../a/v/b.svg" x>`,
		`<a href="guide/">`:               `<a href="guide/">`,
		`<a href="b.svg#x">`:              `<a href="b.svg#x">`,
		`<a href="http://b.svg">`:         `<a href="http://b.svg">`,
		`<a href="b.svg"><a href="none">`: `<a href="a/v/b.svg"><a href="none">`,
	} {
		assert.Equal(t, want, s.versioned(html))
	}
}

// Whoever takes gzip gets it, and what is unpacked is the file.
func TestAssetsAreCompressed(t *testing.T) {
	s, _ := opened(t)
	for takes, zips := range map[string]bool{
		"gzip, deflate, br, zstd": true, "br;q=1.0, GZIP;q=0.8": true, "deflate,gzip": true, "gzip;q=1": true, "gzip ; q=0.001": true,
		"": false, "br": false, "gzip;q=0": false, "gzip;q=0.000": false, "*": false, "x-gzip": false,
	} {
		w := askedFor(s, assetAt("joined/main.js"), takes)
		assert.Equal(t, "Accept-Encoding", w.Header().Get("Vary"))
		plain := theSite().files["joined/main.js"].data
		if !zips {
			assert.Empty(t, w.Header().Get("Content-Encoding"), takes)
			assert.Equal(t, string(plain), w.Body.String(), takes)
			continue
		}
		require.Equal(t, "gzip", w.Header().Get("Content-Encoding"), takes)
		assert.Less(t, w.Body.Len(), len(plain))
		z, err := gzip.NewReader(w.Body)
		require.NoError(t, err)
		text, err := io.ReadAll(z)
		require.NoError(t, err)
		assert.Equal(t, string(plain), string(text))
	}
	assert.Equal(t, "gzip", askedFor(s, assetAt("joined/main.js"), "br", "gzip").Header().Get("Content-Encoding"))
	for _, name := range []string{"/api/start", "/"} {
		r := request(s, http.MethodGet, name, nil)
		r.Header.Set("Accept-Encoding", "gzip")
		assert.Empty(t, served(s, r).Header().Get("Content-Encoding"), "what has what others wrote in it is not compressed")
	}
}
