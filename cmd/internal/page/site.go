package page

import (
	"embed"
	"io/fs"
	"mime"
	"net/http"
)

//go:embed all:site
var assets embed.FS

// site serves the assets. Their kinds are told here and not asked of the
// system, which knows other ones on every machine.
func site() http.Handler {
	for ending, kind := range map[string]string{".js": "text/javascript", ".css": "text/css", ".html": "text/html", ".svg": "image/svg+xml"} {
		_ = mime.AddExtensionType(ending, kind+"; charset=utf-8") // a kind that parses
	}
	below, _ := fs.Sub(assets, "site") // it is there, by the line above
	return http.FileServerFS(below)
}
