PRAGMA application_id = 1179805046;
PRAGMA user_version = 3;
BEGIN TRANSACTION;
CREATE TABLE counter (letter TEXT PRIMARY KEY, last INTEGER NOT NULL) STRICT;
INSERT INTO "counter" VALUES('f',2);
INSERT INTO "counter" VALUES('t',2);
INSERT INTO "counter" VALUES('o',1);
INSERT INTO "counter" VALUES('a',1);
INSERT INTO "counter" VALUES('l',1);
CREATE TABLE event (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, pts INTEGER NOT NULL,
    time_base TEXT NOT NULL, what TEXT NOT NULL, team TEXT, player TEXT, length INTEGER, before_start TEXT,
    note TEXT NOT NULL, kind TEXT, charged_to TEXT) STRICT;
CREATE TABLE film (
    id TEXT PRIMARY KEY, path TEXT NOT NULL, beside TEXT NOT NULL, size INTEGER NOT NULL, length TEXT NOT NULL,
    digest TEXT NOT NULL, start_pts INTEGER NOT NULL, start_time_base TEXT NOT NULL, width INTEGER NOT NULL,
    height INTEGER NOT NULL) STRICT;
INSERT INTO "film" VALUES('f1','/films/half-1.mp4','',1000000,'90','ab12',1024,'1/15360',1280,720);
CREATE TABLE game (
    id TEXT PRIMARY KEY CHECK (id = 'game'), day TEXT NOT NULL, level TEXT, book TEXT NOT NULL, adoption TEXT,
    home TEXT NOT NULL, visitor TEXT NOT NULL, crew TEXT NOT NULL, observer TEXT NOT NULL) STRICT;
INSERT INTO "game" VALUES('game','2025-01-14','varsity','nfhs',NULL,'{"name":"Thrunnockby","facts":{"jersey":{"value":[{"name":"white","lab":[95.79317991911022,-0.15421356826128552,-0.5971496064717696]}],"origin":"declared","why":""},"number_colour":{"value":[{"name":"navy","lab":[15.619109660626844,8.73292837940759,-17.66485538231466]}],"origin":"declared","why":""}},"roster":["10","00","0"]}','{"name":"Ovvermire","facts":{"jersey":{"value":[{"name":"green","lab":[49.8342167945128,-43.98066596344327,18.21255525398422]}],"origin":"declared","why":""},"trim":{"value":[{"name":"black","lab":[13.227910984271855,0.0,0.0]},{"name":"white","lab":[95.79317991911022,-0.15421356826128552,-0.5971496064717696]}],"origin":"declared","why":""}},"roster":[]}','[["referee","R. Quillander"],["umpire","U. Thornvex"]]','O. Vanterell');
CREATE TABLE letter (id TEXT PRIMARY KEY, position TEXT NOT NULL UNIQUE, words TEXT NOT NULL) STRICT;
INSERT INTO "letter" VALUES('l1','umpire','Well seen.');
CREATE TABLE migration (
    to_form INTEGER PRIMARY KEY, from_form INTEGER NOT NULL, at TEXT NOT NULL, program TEXT NOT NULL) STRICT;
INSERT INTO "migration" VALUES(1,0,'2026-11-25T10:20:46+00:00','0.1.0');
INSERT INTO "migration" VALUES(2,1,'2026-11-25T10:20:46+00:00','0.1.0');
INSERT INTO "migration" VALUES(3,2,'2026-11-25T10:20:46+00:00','0.1.0');
CREATE TABLE official (
    id TEXT PRIMARY KEY, tag TEXT NOT NULL UNIQUE REFERENCES tag (id) DEFERRABLE INITIALLY DEFERRED,
    position TEXT NOT NULL) STRICT;
INSERT INTO "official" VALUES('o1','t1','umpire');
CREATE TABLE reference (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, pts INTEGER NOT NULL,
    time_base TEXT NOT NULL, region TEXT NOT NULL, colour TEXT NOT NULL) STRICT;
CREATE TABLE reply (
    id TEXT PRIMARY KEY, tag TEXT NOT NULL REFERENCES tag (id) DEFERRABLE INITIALLY DEFERRED, by TEXT NOT NULL,
    answer TEXT NOT NULL, words TEXT NOT NULL, UNIQUE (tag, by)) STRICT;
INSERT INTO "reply" VALUES('a1','t1','umpire','agreed','');
CREATE TABLE ruled (
    tag TEXT NOT NULL, program TEXT NOT NULL, inputs TEXT NOT NULL, at TEXT NOT NULL, book TEXT NOT NULL,
    edition TEXT NOT NULL, ruling TEXT NOT NULL, consequence TEXT NOT NULL, rule TEXT NOT NULL, reference TEXT NOT NULL,
    reasons TEXT NOT NULL, PRIMARY KEY (tag, program)) STRICT;
CREATE TABLE step (
    number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, words TEXT NOT NULL, edits TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('done', 'undone', 'abandoned')), state_at TEXT NOT NULL,
    state_who TEXT NOT NULL) STRICT;
INSERT INTO "step" VALUES(1,'2026-11-25T10:20:46+00:00','Ann','set up Thrunnockby against Ovvermire, 2025-01-14','[{"part":"game","before":null,"after":{"id":"game","day":"2025-01-14","level":"varsity","book":"nfhs","adoption":null,"home":"{\"name\":\"Thrunnockby\",\"facts\":{\"jersey\":{\"value\":[{\"name\":\"white\",\"lab\":[95.79317991911022,-0.15421356826128552,-0.5971496064717696]}],\"origin\":\"declared\",\"why\":\"\"},\"number_colour\":{\"value\":[{\"name\":\"navy\",\"lab\":[15.619109660626844,8.73292837940759,-17.66485538231466]}],\"origin\":\"declared\",\"why\":\"\"}},\"roster\":[\"10\",\"00\",\"0\"]}","visitor":"{\"name\":\"Ovvermire\",\"facts\":{\"jersey\":{\"value\":[{\"name\":\"green\",\"lab\":[49.8342167945128,-43.98066596344327,18.21255525398422]}],\"origin\":\"declared\",\"why\":\"\"},\"trim\":{\"value\":[{\"name\":\"black\",\"lab\":[13.227910984271855,0.0,0.0]},{\"name\":\"white\",\"lab\":[95.79317991911022,-0.15421356826128552,-0.5971496064717696]}],\"origin\":\"declared\",\"why\":\"\"}},\"roster\":[]}","crew":"[[\"referee\",\"R. Quillander\"],[\"umpire\",\"U. Thornvex\"]]","observer":"O. Vanterell"}}]','done','2026-11-25T10:20:46+00:00','Ann');
INSERT INTO "step" VALUES(2,'2026-11-25T10:20:46+00:00','Ann','add the film half-1.mp4 as f1','[{"part":"film","before":null,"after":{"id":"f1","path":"/films/half-1.mp4","beside":"","size":1000000,"length":"90","digest":"ab12","start_pts":1024,"start_time_base":"1/15360","width":1280,"height":720}}]','done','2026-11-25T10:20:46+00:00','Ann');
INSERT INTO "step" VALUES(3,'2026-11-25T10:20:46+00:00','Ann','add the film half-2.mp4 as f2','[{"part":"film","before":null,"after":{"id":"f2","path":"/films/half-2.mp4","beside":"","size":1000000,"length":"90","digest":"cd34","start_pts":1024,"start_time_base":"1/15360","width":1280,"height":720}}]','done','2026-11-25T10:20:46+00:00','Ann');
INSERT INTO "step" VALUES(4,'2026-11-25T10:20:46+00:00','Ann','tag t1: visitor 14, arm sleeve at 0:12.500','[{"part":"tag","before":null,"after":{"id":"t1","film":"f1","pts":193024,"time_base":"1/15360","team":"visitor","player":"14","item":"arm sleeve","region":null,"facts":"[]","note":"Seen at once.","crew":"{\"mark\":\"late\",\"moment\":{\"pts\":461824,\"time_base\":\"1/15360\"},\"did\":\"told the coach\",\"film\":null}"}}]','done','2026-11-25T10:20:46+00:00','Ann');
INSERT INTO "step" VALUES(5,'2026-11-25T10:20:46+00:00','Ann','tag t2: visitor 14, headband at 0:20.000','[{"part":"tag","before":null,"after":{"id":"t2","film":"f1","pts":308224,"time_base":"1/15360","team":"visitor","player":"14","item":"headband","region":null,"facts":"[]","note":"","crew":null}}]','done','2026-11-25T10:20:46+00:00','Ann');
INSERT INTO "step" VALUES(6,'2026-11-25T10:20:46+00:00','Ann','t1 is the umpire''s','[{"part":"official","before":null,"after":{"id":"o1","tag":"t1","position":"umpire"}}]','done','2026-11-25T10:20:46+00:00','Ann');
INSERT INTO "step" VALUES(7,'2026-11-25T10:20:46+00:00','Ann','reply to t1: agreed','[{"part":"reply","before":null,"after":{"id":"a1","tag":"t1","by":"umpire","answer":"agreed","words":""}}]','done','2026-11-25T10:20:46+00:00','Ann');
INSERT INTO "step" VALUES(8,'2026-11-25T10:20:46+00:00','Ann','write to the umpire','[{"part":"letter","before":null,"after":{"id":"l1","position":"umpire","words":"Well seen."}}]','done','2026-11-25T10:20:46+00:00','Ann');
INSERT INTO "step" VALUES(9,'2026-11-25T10:20:46+00:00','Ann','remove the film half-2.mp4','[{"part":"film","before":{"id":"f2","path":"/films/half-2.mp4","beside":"","size":1000000,"length":"90","digest":"cd34","start_pts":1024,"start_time_base":"1/15360","width":1280,"height":720},"after":null}]','done','2026-11-25T10:20:46+00:00','Ann');
CREATE TABLE tag (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, pts INTEGER NOT NULL,
    time_base TEXT NOT NULL, team TEXT NOT NULL, player TEXT, item TEXT NOT NULL, region TEXT, facts TEXT NOT NULL,
    note TEXT NOT NULL, crew TEXT) STRICT;
INSERT INTO "tag" VALUES('t1','f1',193024,'1/15360','visitor','14','arm sleeve',NULL,'[]','Seen at once.','{"mark":"late","moment":{"pts":461824,"time_base":"1/15360"},"did":"told the coach","film":null}');
INSERT INTO "tag" VALUES('t2','f1',308224,'1/15360','visitor','14','headband',NULL,'[]','',NULL);
COMMIT;
