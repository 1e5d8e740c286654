// Package migrations holds the schema of the store as numbered SQL files, each applied once and in
// one transaction. A file that has been released is never changed; a new one is added. Each sets
// user_version to its own number, by which an older program knows that the store is too new for it.
package migrations

import "embed"

// Files are the migrations, for goose.
//
//go:embed *.sql
var Files embed.FS

// ApplicationID stands in the header of every store.
const ApplicationID = 1181967201

// Latest is the number of the newest migration.
const Latest = 2
