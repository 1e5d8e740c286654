-- A store as the program with schema 1 left it: one panel, two edits, the second taken back.
PRAGMA foreign_keys = off;
BEGIN;
PRAGMA application_id = 1181967201;
PRAGMA user_version = 1;
CREATE TABLE edits (
    panel_id   TEXT NOT NULL REFERENCES panels (id) ON DELETE CASCADE,
    rev        INTEGER NOT NULL CHECK (rev > 0),
    kind       TEXT NOT NULL CHECK (kind IN ('edit', 'undo', 'redo')),
    of_rev     INTEGER,       -- the edit that undo took back or redo did again
    under      INTEGER,       -- what lay below it: on the undo pile for an edit, on the redo pile for an undo
    base       INTEGER NOT NULL CHECK (base >= 0), -- the revision that the sender looked at
    name       TEXT NOT NULL, -- what the edit does, such as place
    label      TEXT NOT NULL, -- the same for the maker
    body       TEXT NOT NULL, -- the edit as it was applied
    inverse    TEXT NOT NULL, -- the edit that takes it back
    command_id TEXT NOT NULL CHECK (length(command_id) BETWEEN 1 AND 64),
    at_ms      INTEGER NOT NULL,
    PRIMARY KEY (panel_id, rev),
    UNIQUE (panel_id, command_id),
    FOREIGN KEY (panel_id, of_rev) REFERENCES edits (panel_id, rev),
    CHECK ((kind = 'edit') = (of_rev IS NULL)),
    CHECK (of_rev < rev),
    CHECK (under < rev)
) STRICT, WITHOUT ROWID;
CREATE TABLE goose_db_version (
		id INTEGER PRIMARY KEY AUTOINCREMENT,
		version_id INTEGER NOT NULL,
		is_applied INTEGER NOT NULL,
		tstamp TIMESTAMP DEFAULT (datetime('now'))
	);
CREATE TABLE panels (
    id         TEXT PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    name       TEXT NOT NULL,
    origin     TEXT NOT NULL, -- the project file at revision 0
    body       TEXT NOT NULL, -- the project file at revision rev
    rev        INTEGER NOT NULL DEFAULT 0 CHECK (rev >= 0),
    undo_top   INTEGER,       -- revision of the edit that undo takes back next
    redo_top   INTEGER,       -- revision of the edit that redo does again next
    created_ms INTEGER NOT NULL,
    changed_ms INTEGER NOT NULL,
    deleted_ms INTEGER,       -- in the trash since then
    FOREIGN KEY (id, undo_top) REFERENCES edits (panel_id, rev) DEFERRABLE INITIALLY DEFERRED,
    FOREIGN KEY (id, redo_top) REFERENCES edits (panel_id, rev) DEFERRABLE INITIALLY DEFERRED
) STRICT;
INSERT INTO goose_db_version VALUES (1, 0, 1, '2026-03-01 12:00:00');
INSERT INTO goose_db_version VALUES (2, 1, 1, '2026-03-01 12:00:00');
INSERT INTO panels VALUES ('2h3nsyv6f695b2e2', 'Two-key counter', '{
  "fascia": 1,
  "name": "Two-key counter",
  "boards": [
    {
      "id": "A",
      "columns": 30,
      "rows": 22,
      "at": "A1",
      "copper": "pads",
      "plated": true
    }
  ],
  "parts": {},
  "placed": [],
  "scan": {
    "style": "auto",
    "rows": 0,
    "columns": 0,
    "active": "auto",
    "pulls": "auto",
    "diodes": "where needed",
    "reader": "pio"
  },
  "chords": [],
  "pins": {
    "locked": {},
    "keep_free": []
  },
  "wires": {
    "locked": [],
    "keep_out": []
  },
  "notes": ""
}
', '{
  "fascia": 1,
  "name": "Two-key counter",
  "boards": [
    {
      "id": "A",
      "columns": 30,
      "rows": 22,
      "at": "A1",
      "copper": "pads",
      "plated": true
    }
  ],
  "parts": {
    "tact6": {
      "name": "6 x 6 mm tactile switch, 4 legs",
      "kind": "switch",
      "prefix": "S",
      "terminals": [
        {
          "name": "A1",
          "at": [
            0,
            0
          ],
          "mm": [
            0.56,
            0.29
          ],
          "lead_mm": 0.8
        },
        {
          "name": "A2",
          "at": [
            3,
            0
          ],
          "mm": [
            7.06,
            0.29
          ],
          "lead_mm": 0.8
        },
        {
          "name": "B1",
          "at": [
            0,
            2
          ],
          "mm": [
            0.56,
            4.79
          ],
          "lead_mm": 0.8
        },
        {
          "name": "B2",
          "at": [
            3,
            2
          ],
          "mm": [
            7.06,
            4.79
          ],
          "lead_mm": 0.8
        }
      ],
      "joined": [
        [
          "A1",
          "A2"
        ],
        [
          "B1",
          "B2"
        ]
      ],
      "contacts": [
        {
          "name": "press",
          "between": [
            "A1",
            "B1"
          ]
        }
      ],
      "bodies": [
        {
          "face": "front",
          "rect": [
            0.81,
            -0.46,
            6.81,
            5.54
          ],
          "height": 4.3,
          "stand_off": 0
        }
      ],
      "needs": [],
      "facts": {
        "bounce_ms": 10,
        "contact_ma": 50
      },
      "bom": {
        "text": "tactile switch 6 x 6 mm, 4 legs, through-hole",
        "note": "Form the legs outward by about 0.5 mm before placing."
      },
      "sources": [
        {
          "figure": "body, height, ratings, bounce",
          "source": "B3F and TS6601H tactile switch data sheets"
        },
        {
          "figure": "hole pattern 6.5 x 4.5 mm, joined legs",
          "source": "from memory of the drawing; confirm with a meter"
        }
      ]
    }
  },
  "placed": [
    {
      "ref": "S1",
      "part": "tact6",
      "at": "C5",
      "turn": 0,
      "face": "front",
      "key": {
        "legend": ""
      }
    }
  ],
  "scan": {
    "style": "auto",
    "rows": 0,
    "columns": 0,
    "active": "auto",
    "pulls": "auto",
    "diodes": "where needed",
    "reader": "pio"
  },
  "chords": [],
  "pins": {
    "locked": {},
    "keep_free": []
  },
  "wires": {
    "locked": [],
    "keep_out": []
  },
  "notes": ""
}
', 3, '1', '2', 1772366400000, 1772366400000, NULL);
INSERT INTO edits VALUES ('2h3nsyv6f695b2e2', 1, 'edit', NULL, NULL, 0, 'place', 'Place S1', '{"do":"place","placed":{"ref":"S1","part":"tact6","at":"C5","turn":0,"face":"front"}}', '{"do":"restore","label":"Place S1","parts":{"tact6":null},"placed":{"S1":null}}', 'c1', 1772366400000);
INSERT INTO edits VALUES ('2h3nsyv6f695b2e2', 2, 'edit', NULL, '1', 0, 'place', 'Place S2', '{"do":"place","placed":{"ref":"S2","part":"tact6","at":"H5","turn":0,"face":"front"}}', '{"do":"restore","label":"Place S2","placed":{"S2":null}}', 'c2', 1772366400000);
INSERT INTO edits VALUES ('2h3nsyv6f695b2e2', 3, 'undo', '2', NULL, 2, 'restore', 'Place S2', '{"do":"restore","label":"Place S2","placed":{"S2":null}}', '{"do":"restore","label":"Place S2","placed":{"S2":{"ref":"S2","part":"tact6","at":"H5","turn":0,"face":"front","key":{"legend":""}}}}', 'c3', 1772366400000);
CREATE INDEX edits_by_of_rev ON edits (panel_id, of_rev);
CREATE TRIGGER edits_stay_as_written BEFORE UPDATE ON edits
BEGIN
    SELECT RAISE(ABORT, 'edits are only ever added');
END;
CREATE TRIGGER edits_stay_with_their_panel BEFORE DELETE ON edits
WHEN EXISTS (SELECT 1 FROM panels WHERE id = OLD.panel_id)
BEGIN
    SELECT RAISE(ABORT, 'edits are only ever added');
END;
COMMIT;
