package estimate

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"

	"haunchbook.example/app/takeoff"
)

// Upgrade brings the pricing of a job file of version 2 or older, the JSON object
// "price", to the form of this version: price lists, and what others supply, named
// takeoff lines by keys. What it cannot read stays as it is, for the reader to say
// what is wrong with it.
func Upgrade(pricing []byte) []byte {
	return rewritten(pricing, func(spec map[string]any) {
		if others, ok := spec["others"].([]any); ok {
			spec["others"] = upgradedOthers(others)
		}
		if list, ok := spec["prices"].(map[string]any); ok {
			upgradeList(list)
		}
	})
}

// upgraded brings a price list of an older version to the form of this one. The
// bytes of one that is of this version stay as they are.
func upgraded(list []byte) []byte {
	if !bytes.Contains(list, []byte(`"key"`)) {
		return list
	}
	return rewritten(list, upgradeList)
}

// rewritten changes a JSON object; one that does not read stays as it is.
func rewritten(data []byte, change func(map[string]any)) []byte {
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	var object map[string]any
	if dec.Decode(&object) != nil || dec.More() {
		return data
	}
	change(object)
	out, err := json.Marshal(object)
	if err != nil {
		return data
	}
	return out
}

func upgradedOthers(others []any) []any {
	out := []any{} // an empty list stays one
	for _, o := range others {
		key, ok := o.(string)
		if !ok {
			out = append(out, o)
			continue
		}
		for _, id := range takeoff.OfOldKey(key) {
			out = append(out, id)
		}
	}
	return out
}

func upgradeList(list map[string]any) {
	if items, ok := list["items"].([]any); ok {
		list["items"] = upgradedItems(items)
	}
	for _, part := range []string{"tasks", "fees"} {
		entries, _ := list[part].([]any)
		for _, e := range entries {
			e, _ := e.(map[string]any)
			if key, ok := e["key"].(string); ok {
				delete(e, "key")
				if key != "" {
					e["what"] = driverOf(key)
				}
			}
		}
	}
}

// driverOf gives the quantity that drove a task or a fee: one with "*" fitted none.
func driverOf(key string) takeoff.ID {
	if strings.Contains(key, "*") {
		return takeoff.ID{Kind: takeoff.Unknown, Name: key}
	}
	return takeoff.OfOldKey(key)[0]
}

// upgradedItems gives an item for each thing that a key named. Where two name the
// same, the one whose key fitted exactly counts, then the one with the longer key,
// as it was.
func upgradedItems(items []any) []any {
	out := []any{}                // an empty list stays one
	of := map[takeoff.ID]int{}    // where in out
	close := map[takeoff.ID]int{} // how closely its key fitted
	for _, it := range items {
		item, _ := it.(map[string]any)
		key, ok := item["key"].(string)
		if !ok {
			out = append(out, it)
			continue
		}
		closeness := 1 << 20
		ids := takeoff.OfOldKey(key)
		if strings.HasSuffix(key, "*") {
			closeness = len(key)
			// It priced what is bought, and nothing else.
			ids = slices.DeleteFunc(ids, func(id takeoff.ID) bool { return !id.Kind.Bought() })
			if len(ids) == 0 {
				ids = []takeoff.ID{{Kind: takeoff.Unknown, Name: key}}
			}
		}
		for _, id := range ids {
			now := map[string]any{"what": id}
			for k, v := range item {
				if k != "key" {
					now[k] = v
				}
			}
			at, had := of[id]
			switch {
			case !had:
				of[id], close[id] = len(out), closeness
				out = append(out, now)
			case closeness > close[id]:
				out[at], close[id] = now, closeness
			}
		}
	}
	return out
}
