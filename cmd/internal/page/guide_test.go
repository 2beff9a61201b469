package page

import (
	"net/http"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/cmd/internal/guide"
)

var href = regexp.MustCompile(`(?:href|src)="([^"]+)"`)

// Every chapter is a page with a title, a language and the list of all, under the
// policy, for a tab that was opened beside the page and has no key.
func TestTheGuideIsServed(t *testing.T) {
	s, dir := opened(t)
	all := guide.Chapters()
	for i, c := range all {
		r := request(s, http.MethodGet, guidePath+c.Name, nil)
		r.Header.Del(keyHeader)
		r.Header.Set("Sec-Fetch-Site", "same-origin")
		w := served(s, r)
		html := w.Body.String()
		assert.Equal(t, http.StatusOK, w.Code, c.Name)
		assert.Equal(t, "text/html; charset=utf-8", w.Header().Get("Content-Type"))
		guarded(t, w)
		assert.NotRegexp(t, inlineCode, html)
		assert.NotRegexp(t, fromOutside, html)
		assert.Contains(t, html, `<html lang="en">`)
		assert.Contains(t, html, "<title>"+c.Title()+" · seamrail guide</title>")
		assert.Contains(t, html, ">"+c.Title()+"</h1>")
		assert.Contains(t, html, `<a href="`+c.Name+`" aria-current="page">`)
		assert.Equal(t, 1, strings.Count(html, "aria-current"))
		assert.Equal(t, i > 0, strings.Contains(html, `rel="prev"`))
		assert.Equal(t, i+1 < len(all), strings.Contains(html, `rel="next"`))
		for _, other := range all {
			assert.Contains(t, html, `<li><a href="`+other.Name+`"`)
		}
	}
	first, named := served(s, request(s, http.MethodGet, guidePath, nil)), served(s, request(s, http.MethodGet, guidePath+all[0].Name, nil))
	assert.Equal(t, named.Body.String(), first.Body.String())
	untouched(t, s, dir)
}

// Whatever the guide links to is there.
func TestTheGuideLinksToWhatIsThere(t *testing.T) {
	s, _ := opened(t)
	asked := map[string]bool{}
	for _, c := range guide.Chapters() {
		html := served(s, request(s, http.MethodGet, guidePath+c.Name, nil)).Body.String()
		for _, m := range href.FindAllStringSubmatch(html, -1) {
			to := path.Join(guidePath, m[1])
			if strings.HasPrefix(m[1], "#") {
				assert.Contains(t, html, `id="`+m[1][1:]+`"`)
			} else if !asked[to] {
				assert.Equal(t, http.StatusOK, served(s, request(s, http.MethodGet, to, nil)).Code, to)
				asked[to] = true
			}
		}
	}
	assert.True(t, asked[assetAt("style/guide.css")] && asked[assetAt("style/tokens.css")] && asked["/guide/driving"])
	page := served(s, request(s, http.MethodGet, "/", nil)).Body.String()
	assert.Contains(t, page, `href="guide/" target="_blank" rel="noopener"`)
}

func TestTheGuideHasNoOtherPages(t *testing.T) {
	s, _ := opened(t)
	for _, none := range []string{"nosuch", "rig.md", "Rig", "rig/", "..%2fserver.go", "%3Cscript%3E"} {
		w := served(s, request(s, http.MethodGet, guidePath+none, nil))
		assert.Equal(t, http.StatusNotFound, w.Code, none)
		assert.NotContains(t, w.Body.String(), "<", none)
		guarded(t, w)
	}
	w := served(s, request(s, http.MethodPost, guidePath+"rig", nil))
	assert.NotEqual(t, http.StatusOK, w.Code)
}
