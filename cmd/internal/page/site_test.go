package page

import (
	"io/fs"
	"net/http"
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
	count := 0
	require.NoError(t, fs.WalkDir(assets, "site", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(assets, name)
		require.NoError(t, err)
		count++
		f(strings.TrimPrefix(name, "site/"), string(data))
		return nil
	}))
	assert.Positive(t, count)
}

var imported = regexp.MustCompile(`(?m)^import \{([^}]*)\} from`)

// A name that a script imports twice, as two changes may once they are joined, is no script
// to a browser, and the page then stays empty.
func TestNoScriptImportsANameTwice(t *testing.T) {
	each(t, func(name, text string) {
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
	each(t, func(name, text string) {
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

// A browser that is told not to guess runs nothing whose kind is not told.
func TestAssetsHaveTheirKind(t *testing.T) {
	s, _ := opened(t)
	kinds := map[string]string{".html": "text/html", ".js": "text/javascript", ".mjs": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml"}
	each(t, func(name, _ string) {
		want, known := kinds[path.Ext(name)]
		if !known || path.Base(name) == "index.html" {
			return
		}
		w := served(s, request(s, http.MethodGet, "/"+name, nil))
		assert.Equal(t, http.StatusOK, w.Code, name)
		assert.Contains(t, w.Header().Get("Content-Type"), want, name)
		guarded(t, w)
	})
	w := served(s, request(s, http.MethodGet, "/", nil))
	assert.Contains(t, w.Header().Get("Content-Type"), "text/html")
	for _, none := range []string{"/../server.go", "/..%2fserver.go", "/site/index.html", "/%2e%2e/key.go", "/server.go"} {
		w := served(s, request(s, http.MethodGet, none, nil))
		assert.NotEqual(t, http.StatusOK, w.Code, none)
		assert.NotContains(t, w.Body.String(), "package page", none)
	}
}
