package view

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

// The templates hold nothing that the content policy drops or that would let text through as markup
// (OWASP ASVS 5.0.0, 1.2.1 and 3.4.3).
func TestTemplatesWriteOnlySafeMarkup(t *testing.T) {
	forbidden := regexp.MustCompile(`templ\.Raw|@html|templ\.SafeURL|templ\.JSFuncCall|templ\.OnceHandle|\sstyle=|\son[a-z]+=|<style|<script[^>]*>[^<\s]|https?://`)
	files, err := filepath.Glob("*.templ")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d templates, %v", len(files), err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if m := forbidden.Find(text); m != nil {
			t.Errorf("%s holds %q", name, m)
		}
	}
}
