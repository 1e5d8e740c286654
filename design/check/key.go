package check

import (
	"fmt"

	"fascia/design/finding"
	"fascia/design/panel"
	"fascia/design/part"
)

var keyRules = []Rule{
	{Code: "key-none", Severity: finding.Note, Says: "A panel has keys.", Source: "common practice, no source",
		Instead: []string{"scan-no-keys"}, look: keyNone},
	{Code: "key-legend-missing", Severity: finding.Mind, Says: "Every key has a legend.", Source: "common practice, no source", look: keyLegendMissing},
	{Code: "key-legend-twice", Severity: finding.Mind, Says: "No two keys have one legend.", Source: "common practice, no source", look: keyLegendTwice},
	{Code: "key-usage-twice", Severity: finding.Mind, Says: "No two keys have one meaning.", Source: "common practice, no source", look: keyUsageTwice},
}

func keyNone(v *view) []finding.Finding {
	if len(v.keys) > 0 {
		return nil
	}
	fix := "Place a switch and type its legend."
	if len(v.ofKind(part.Switch)) > 0 {
		fix = "Type a legend on a switch."
	}
	return []finding.Finding{{Text: "This panel has no keys.", Fix: fix}}
}

func keyLegendMissing(v *view) []finding.Finding {
	var found []finding.Finding
	for _, k := range v.keys {
		if k.Legend == "" {
			found = append(found, finding.Finding{Where: atKeys(k.ID),
				Text: fmt.Sprintf("Key %s has no legend.", k.ID), Fix: "Type what it means; the legends strip and the key table print it."})
		}
	}
	return found
}

// twice makes a finding for each value that several keys share.
func twice(keys []panel.KeyRef, of func(panel.KeyRef) string, text func(shared string, ids []string) string, fix string) []finding.Finding {
	users := map[string][]string{}
	var order []string
	for _, k := range keys {
		s := of(k)
		if s == "" {
			continue
		}
		if users[s] == nil {
			order = append(order, s)
		}
		users[s] = append(users[s], k.ID)
	}
	var found []finding.Finding
	for _, s := range order {
		if len(users[s]) > 1 {
			found = append(found, finding.Finding{Where: atKeys(users[s]...), Text: text(s, users[s]), Fix: fix})
		}
	}
	return found
}

func keyLegendTwice(v *view) []finding.Finding {
	return twice(v.keys, func(k panel.KeyRef) string { return k.Legend },
		func(s string, ids []string) string {
			return fmt.Sprintf("Keys %s have one legend, %q.", finding.Names(ids), s)
		}, "Give each a legend of its own, unless they shall mean the same.")
}

func keyUsageTwice(v *view) []finding.Finding {
	return twice(v.keys, func(k panel.KeyRef) string { return canonicalUsage(k.Usage) },
		func(s string, ids []string) string {
			return fmt.Sprintf("Keys %s have one meaning, usage %s.", finding.Names(ids), s)
		}, "Give one of them another usage, unless they shall mean the same.")
}
