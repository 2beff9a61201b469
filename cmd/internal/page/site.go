package page

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"regexp"
	"strings"
	"sync"
)

// The scripts are there as they are joined, which a test holds to what they are made of.
//
//go:embed site/*.html site/*.svg site/style site/vendor/uplot/LICENSE site/vendor/uplot/VERSION site/vendor/uplot/*.css site/joined
var assets embed.FS

// assetKinds are told here and not asked of the system, which knows other ones on
// every machine.
var assetKinds = map[string]string{
	".js": "text/javascript", ".css": "text/css", ".html": "text/html", ".svg": "image/svg+xml", "": "text/plain",
}

// asset is one file that the browser gets.
type asset struct {
	kind string
	data []byte
	// zipped is made when it is asked for first. What is compressed here is the same for
	// everyone and has no secret in it, so its length tells nothing; answers, which have
	// what others wrote beside what is known here alone, are not compressed. On one
	// machine they would come later for it.
	zipped func() []byte
}

// assetPath is where the assets are, under a name that changes with any of them: what has
// been fetched from there need never be asked for again.
const assetPath = "/a/"

// site is all of them, and their version.
type site struct {
	version string
	files   map[string]asset // by their path
}

// theSite is read when a page is served first.
var theSite = sync.OnceValue(func() site {
	s := site{files: map[string]asset{}}
	sum := sha256.New()
	below, _ := fs.Sub(assets, "site") // it is there, by what is embedded
	_ = fs.WalkDir(below, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(below, name)
		fmt.Fprintf(sum, "%s %d\n%s", name, len(data), data)
		s.files[name] = asset{assetKinds[path.Ext(name)] + "; charset=utf-8", data, sync.OnceValue(func() []byte { return zipped(data) })}
		return err
	})
	s.version = hex.EncodeToString(sum.Sum(nil)[:versionBytes])
	return s
})

// versionBytes tell any two versions apart: they are of one program each.
const versionBytes = 8

func zipped(data []byte) []byte {
	var b bytes.Buffer
	w, _ := gzip.NewWriterLevel(&b, gzip.BestCompression) // a level that there is
	_, _ = w.Write(data)                                  // a buffer takes all
	_ = w.Close()
	return b.Bytes()
}

var linked = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\b(href|src)="((?:\.\./)*)([^":#?]+)"`) })

// versioned is a page whose links lead to the assets of this version.
func (s site) versioned(html string) string {
	return linked().ReplaceAllStringFunc(html, func(link string) string {
		m := linked().FindStringSubmatch(link)
		if _, ok := s.files[m[3]]; !ok {
			return link
		}
		return fmt.Sprintf(`%s="%s%s"`, m[1], m[2], path.Join(assetPath[1:], s.version, m[3]))
	})
}

// pages are the files that are shown at an address of their own.
var pages = map[string]string{"/": "index.html", shelfPage: shelfPage[1:]}

// showPage answers with a page itself, which has to be of this program each time.
func showPage(w http.ResponseWriter, r *http.Request) {
	s := theSite()
	page, ok := s.files[pages[r.URL.Path]]
	if !ok {
		refuse(w, http.StatusNotFound, "there is nothing here")
		return
	}
	w.Header().Set("Content-Type", page.kind)
	_, _ = w.Write([]byte(s.versioned(string(page.data)))) // who has gone need not read it
}

// showAsset answers with a file of this version.
func showAsset(w http.ResponseWriter, r *http.Request) {
	s := theSite()
	name, ours := strings.CutPrefix(r.URL.Path, assetPath+s.version+"/")
	a, ok := s.files[name]
	if !ours || !ok {
		refuse(w, http.StatusNotFound, "there is no such part of the page; load the page anew")
		return
	}
	h, data := w.Header(), a.data
	h.Set("Content-Type", a.kind)
	h.Set("Cache-Control", "max-age=31536000, immutable") // a year
	h.Set("Vary", "Accept-Encoding")
	if takesGzip(r.Header.Values("Accept-Encoding")) {
		h.Set("Content-Encoding", "gzip")
		data = a.zipped()
	}
	_, _ = w.Write(data) // who has gone need not read it
}

// takesGzip tells whether gzip is named, and not with a weight of nothing (RFC 9110,
// 12.5.3).
func takesGzip(accepts []string) bool {
	for part := range strings.SplitSeq(strings.ToLower(strings.Join(accepts, ",")), ",") {
		name, weight, _ := strings.Cut(part, ";")
		if strings.TrimSpace(name) == "gzip" {
			return strings.Trim(strings.TrimPrefix(strings.TrimSpace(weight), "q="), "0.") != "" || weight == ""
		}
	}
	return false
}
