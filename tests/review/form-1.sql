PRAGMA application_id = 1179805046;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
CREATE TABLE counter (letter TEXT PRIMARY KEY, last INTEGER NOT NULL) STRICT;
INSERT INTO "counter" VALUES('f',1);
INSERT INTO "counter" VALUES('t',3);
INSERT INTO "counter" VALUES('e',2);
INSERT INTO "counter" VALUES('r',1);
CREATE TABLE event (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, pts INTEGER NOT NULL,
    time_base TEXT NOT NULL, what TEXT NOT NULL, team TEXT, player TEXT, length INTEGER, before_start TEXT,
    note TEXT NOT NULL) STRICT;
INSERT INTO "event" VALUES('e1','f1',477184,'1/15360','time-out granted','home',NULL,60,NULL,'');
INSERT INTO "event" VALUES('e2','f1',507904,'1/15360','book number changed','home','10',NULL,'8:00','');
CREATE TABLE film (
    id TEXT PRIMARY KEY, path TEXT NOT NULL, beside TEXT NOT NULL, size INTEGER NOT NULL, length TEXT NOT NULL,
    digest TEXT NOT NULL, start_pts INTEGER NOT NULL, start_time_base TEXT NOT NULL, width INTEGER NOT NULL,
    height INTEGER NOT NULL) STRICT;
INSERT INTO "film" VALUES('f1','/films/half-1.mp4','',1000000,'90','ab12',1024,'1/15360',1280,720);
CREATE TABLE game (
    id TEXT PRIMARY KEY CHECK (id = 'game'), day TEXT NOT NULL, level TEXT, book TEXT NOT NULL, adoption TEXT,
    home TEXT NOT NULL, visitor TEXT NOT NULL, crew TEXT NOT NULL, observer TEXT NOT NULL) STRICT;
INSERT INTO "game" VALUES('game','2025-01-14','varsity','nfhs',NULL,'{"name":"Thrunnockby","facts":{"jersey":{"value":[{"name":"white","lab":[95.79317991911022,-0.15421356826128552,-0.5971496064717696]}],"origin":"declared","why":""},"number_colour":{"value":[{"name":"navy","lab":[15.619109660626844,8.73292837940759,-17.66485538231466]}],"origin":"declared","why":""}},"roster":["10","00","0"]}','{"name":"Ovvermire","facts":{"jersey":{"value":[{"name":"green","lab":[49.8342167945128,-43.98066596344327,18.21255525398422]}],"origin":"declared","why":""},"trim":{"value":[{"name":"black","lab":[13.227910984271855,0.0,0.0]},{"name":"white","lab":[95.79317991911022,-0.15421356826128552,-0.5971496064717696]}],"origin":"declared","why":""}},"roster":[]}','[["referee","R. Quillander"],["umpire","U. Thornvex"]]','O. Vanterell');
CREATE TABLE migration (
    to_form INTEGER PRIMARY KEY, from_form INTEGER NOT NULL, at TEXT NOT NULL, program TEXT NOT NULL) STRICT;
INSERT INTO "migration" VALUES(1,0,'2026-11-25T07:30:15+00:00','0.1.0');
CREATE TABLE reference (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, pts INTEGER NOT NULL,
    time_base TEXT NOT NULL, region TEXT NOT NULL, colour TEXT NOT NULL) STRICT;
INSERT INTO "reference" VALUES('r1','f1',185344,'1/15360','{"box":[10,20,30,40]}','{"name":"white","lab":[95.79317991911022,-0.15421356826128552,-0.5971496064717696]}');
CREATE TABLE step (
    number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, words TEXT NOT NULL, edits TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('done', 'undone', 'abandoned')), state_at TEXT NOT NULL,
    state_who TEXT NOT NULL) STRICT;
INSERT INTO "step" VALUES(1,'2026-11-25T07:30:15+00:00','Ann','set up Thrunnockby against Ovvermire, 2025-01-14','[{"part":"game","before":null,"after":{"id":"game","day":"2025-01-14","level":"varsity","book":"nfhs","adoption":null,"home":"{\"name\":\"Thrunnockby\",\"facts\":{\"jersey\":{\"value\":[{\"name\":\"white\",\"lab\":[95.79317991911022,-0.15421356826128552,-0.5971496064717696]}],\"origin\":\"declared\",\"why\":\"\"},\"number_colour\":{\"value\":[{\"name\":\"navy\",\"lab\":[15.619109660626844,8.73292837940759,-17.66485538231466]}],\"origin\":\"declared\",\"why\":\"\"}},\"roster\":[\"10\",\"00\",\"0\"]}","visitor":"{\"name\":\"Ovvermire\",\"facts\":{\"jersey\":{\"value\":[{\"name\":\"green\",\"lab\":[49.8342167945128,-43.98066596344327,18.21255525398422]}],\"origin\":\"declared\",\"why\":\"\"},\"trim\":{\"value\":[{\"name\":\"black\",\"lab\":[13.227910984271855,0.0,0.0]},{\"name\":\"white\",\"lab\":[95.79317991911022,-0.15421356826128552,-0.5971496064717696]}],\"origin\":\"declared\",\"why\":\"\"}},\"roster\":[]}","crew":"[[\"referee\",\"R. Quillander\"],[\"umpire\",\"U. Thornvex\"]]","observer":"O. Vanterell"}}]','done','2026-11-25T07:30:15+00:00','Ann');
INSERT INTO "step" VALUES(2,'2026-11-25T07:30:15+00:00','Ann','add the film half-1.mp4 as f1','[{"part":"film","before":null,"after":{"id":"f1","path":"/films/half-1.mp4","beside":"","size":1000000,"length":"90","digest":"ab12","start_pts":1024,"start_time_base":"1/15360","width":1280,"height":720}}]','done','2026-11-25T07:30:15+00:00','Ann');
INSERT INTO "step" VALUES(3,'2026-11-25T07:30:15+00:00','Ann','tag t1: visitor 14, arm sleeve at 0:12.500','[{"part":"tag","before":null,"after":{"id":"t1","film":"f1","pts":193024,"time_base":"1/15360","team":"visitor","player":"14","item":"arm sleeve","region":"{\"box\":[600,200,40,90]}","facts":"[{\"key\":\"colour\",\"value\":[{\"name\":\"orange\",\"lab\":[66.18020759855652,36.08381131109434,72.64687501486273]}],\"origin\":\"measured\",\"why\":\"made up\"},{\"key\":\"in_play\",\"value\":true,\"origin\":\"seen\",\"why\":\"\"}]","note":"a note; with a semicolon","crew":"{\"mark\":\"late\",\"moment\":{\"pts\":615424,\"time_base\":\"1/15360\"},\"did\":\"sent out\",\"film\":null}"}}]','done','2026-11-25T07:30:15+00:00','Ann');
INSERT INTO "step" VALUES(4,'2026-11-25T07:30:15+00:00','Ann','event e1: time-out granted, home at 0:31.000','[{"part":"event","before":null,"after":{"id":"e1","film":"f1","pts":477184,"time_base":"1/15360","what":"time-out granted","team":"home","player":null,"length":60,"before_start":null,"note":""}}]','done','2026-11-25T07:30:15+00:00','Ann');
INSERT INTO "step" VALUES(5,'2026-11-25T07:30:15+00:00','Ann','event e2: book number changed, home 10 at 0:33.000','[{"part":"event","before":null,"after":{"id":"e2","film":"f1","pts":507904,"time_base":"1/15360","what":"book number changed","team":"home","player":"10","length":null,"before_start":"8:00","note":""}}]','done','2026-11-25T07:30:15+00:00','Ann');
INSERT INTO "step" VALUES(6,'2026-11-25T07:30:15+00:00','Ann','take white at 0:12.000 as reference r1','[{"part":"reference","before":null,"after":{"id":"r1","film":"f1","pts":185344,"time_base":"1/15360","region":"{\"box\":[10,20,30,40]}","colour":"{\"name\":\"white\",\"lab\":[95.79317991911022,-0.15421356826128552,-0.5971496064717696]}"}}]','done','2026-11-25T07:30:15+00:00','Ann');
INSERT INTO "step" VALUES(7,'2026-11-25T07:30:15+00:00','Ann','tag t2: visitor 14, headband at 0:20.000','[{"part":"tag","before":null,"after":{"id":"t2","film":"f1","pts":308224,"time_base":"1/15360","team":"visitor","player":"14","item":"headband","region":null,"facts":"[]","note":"","crew":null}}]','abandoned','2026-11-25T07:30:15+00:00','Ann');
INSERT INTO "step" VALUES(8,'2026-11-25T07:30:15+00:00','Ann','tag t3: visitor 14, wristband at 0:21.000','[{"part":"tag","before":null,"after":{"id":"t3","film":"f1","pts":323584,"time_base":"1/15360","team":"visitor","player":"14","item":"wristband","region":null,"facts":"[]","note":"","crew":null}}]','done','2026-11-25T07:30:15+00:00','Ann');
INSERT INTO "step" VALUES(9,'2026-11-25T07:30:15+00:00','Ann','remove t3: visitor 14, wristband at 0:21.000','[{"part":"tag","before":{"id":"t3","film":"f1","pts":323584,"time_base":"1/15360","team":"visitor","player":"14","item":"wristband","region":null,"facts":"[]","note":"","crew":null},"after":null}]','undone','2026-11-25T07:30:15+00:00','Ann');
CREATE TABLE tag (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, pts INTEGER NOT NULL,
    time_base TEXT NOT NULL, team TEXT NOT NULL, player TEXT, item TEXT NOT NULL, region TEXT, facts TEXT NOT NULL,
    note TEXT NOT NULL, crew TEXT) STRICT;
INSERT INTO "tag" VALUES('t1','f1',193024,'1/15360','visitor','14','arm sleeve','{"box":[600,200,40,90]}','[{"key":"colour","value":[{"name":"orange","lab":[66.18020759855652,36.08381131109434,72.64687501486273]}],"origin":"measured","why":"made up"},{"key":"in_play","value":true,"origin":"seen","why":""}]','a note; with a semicolon','{"mark":"late","moment":{"pts":615424,"time_base":"1/15360"},"did":"sent out","film":null}');
INSERT INTO "tag" VALUES('t3','f1',323584,'1/15360','visitor','14','wristband',NULL,'[]','',NULL);
COMMIT;
