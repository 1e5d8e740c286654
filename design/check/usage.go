package check

import (
	"fmt"

	"fascia/design/finding"
	"fascia/design/usage"
)

const usageSource = "USB-IF, HID Usage Tables for USB"

var usageRules = []Rule{
	{Code: "usage-form", Severity: finding.Stop, Says: "A usage is written as page:id in hexadecimal.", Source: usageSource, look: usageForm},
	{Code: "usage-unknown", Severity: finding.Mind, Says: "A usage has a name in the tables.", Source: usageSource, look: usageUnknown},
}

// canonicalUsage writes a usage so that equal ones are equal text; "" when it cannot be read.
func canonicalUsage(text string) string {
	page, id, err := usage.Parse(text)
	if err != nil {
		return ""
	}
	return usage.Usage{Page: page, ID: id}.Code()
}

func usageForm(v *view) []finding.Finding {
	var found []finding.Finding
	for _, k := range v.keys {
		if k.Usage != "" && canonicalUsage(k.Usage) == "" {
			found = append(found, finding.Finding{Where: atKeys(k.ID),
				Text: fmt.Sprintf("The usage %q of %s cannot be read.", k.Usage, keyName(k)),
				Fix:  "Write page and id in hexadecimal, such as 07:04 for the letter a."})
		}
	}
	return found
}

func usageUnknown(v *view) []finding.Finding {
	var found []finding.Finding
	for _, k := range v.keys {
		if _, named := usage.Named(k.Usage); !named && canonicalUsage(k.Usage) != "" {
			found = append(found, finding.Finding{Where: atKeys(k.ID),
				Text: fmt.Sprintf("The usage %s of %s is not in the tables that Fascia carries.", k.Usage, keyName(k)),
				Fix:  "Choose one from the list, or make sure that your host knows it."})
		}
	}
	return found
}
