BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0003');
CREATE TABLE board (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	formation VARCHAR NOT NULL, 
	court VARCHAR NOT NULL, 
	level DOUBLE NOT NULL, 
	made INTEGER NOT NULL, rules VARCHAR DEFAULT 'pass_and_cut' NOT NULL, stage INTEGER, places VARCHAR DEFAULT '{}' NOT NULL, 
	CONSTRAINT pk_board PRIMARY KEY (id), 
	CONSTRAINT fk_board_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "board" VALUES('OAmYBkQTXGwG','jE15Me7FoiVK','Tuesday practice','five_out','nba',0.9,1795610365,'pass_and_cut',NULL,'{}');
INSERT INTO "board" VALUES('t16acY4KWBnh','HN2ToMNSy7J0','Tuesday','five_out','fiba',1.0,1795610366,'r_pSKc-RTQLF7D@1',NULL,'{"1": "d1OGJ2dTWyIA"}');
CREATE TABLE chain (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	board_id VARCHAR NOT NULL, 
	root_id INTEGER NOT NULL, 
	line_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	tags VARCHAR NOT NULL, 
	pinned BOOLEAN NOT NULL, 
	kept BOOLEAN NOT NULL, 
	made INTEGER NOT NULL, 
	used INTEGER NOT NULL, 
	deleted INTEGER, 
	CONSTRAINT pk_chain PRIMARY KEY (id), 
	CONSTRAINT fk_chain_team_id_team FOREIGN KEY(team_id) REFERENCES team (id), 
	CONSTRAINT fk_chain_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_chain_root_id_node FOREIGN KEY(root_id) REFERENCES node (id), 
	CONSTRAINT fk_chain_line_id_node FOREIGN KEY(line_id) REFERENCES node (id), 
	CONSTRAINT uq_chain_root_id UNIQUE (root_id)
);
INSERT INTO "chain" VALUES('quRQWfJT4LhV','jE15Me7FoiVK','OAmYBkQTXGwG',1,5,'','','[]',0,0,1795610365,1795610365,NULL);
INSERT INTO "chain" VALUES('mHgnIWPDWTwg','jE15Me7FoiVK','OAmYBkQTXGwG',6,10,'','','[]',0,0,1795610365,1795610366,NULL);
INSERT INTO "chain" VALUES('_Cl_Q-9pPof4','jE15Me7FoiVK','OAmYBkQTXGwG',11,11,'','','[]',0,0,1795610366,1795610366,NULL);
INSERT INTO "chain" VALUES('ToBNXAtJpeAF','jE15Me7FoiVK','OAmYBkQTXGwG',12,15,'','','[]',0,0,1795610366,1795610366,NULL);
INSERT INTO "chain" VALUES('OJNO8-LySweq','HN2ToMNSy7J0','t16acY4KWBnh',16,16,'','','[]',0,0,1795610366,1795610366,NULL);
INSERT INTO "chain" VALUES('1ItUSNBZsgbQ','HN2ToMNSy7J0','t16acY4KWBnh',17,23,'','','[]',0,0,1795610366,1795610366,NULL);
INSERT INTO "chain" VALUES('c1','HN2ToMNSy7J0','t16acY4KWBnh',18,20,'Quick','','[]',0,1,1795610366,1795610366,NULL);
CREATE TABLE change (
	board_id VARCHAR NOT NULL, 
	seq INTEGER NOT NULL, 
	message_id VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	node_id INTEGER NOT NULL, 
	key_id VARCHAR, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_change PRIMARY KEY (board_id, seq), 
	CONSTRAINT fk_change_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_change_key_id_key FOREIGN KEY(key_id) REFERENCES "key" (id), 
	CONSTRAINT fk_change_node_id_node FOREIGN KEY(node_id) REFERENCES node (id), 
	CONSTRAINT uq_change_board_id UNIQUE (board_id, message_id)
);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',1,'demo-1','act',2,NULL,1795610365);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',2,'demo-2','act',3,NULL,1795610365);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',3,'demo-3','act',4,NULL,1795610365);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',4,'demo-4','act',5,NULL,1795610365);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',5,'m1','setup',6,'j7RMHMaPG9bX',1795610365);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',6,'m2','act',7,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',7,'m3','act',8,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',8,'m4','act',9,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',9,'m5','act',10,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',10,'m6','undo',9,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',11,'m7','undo',8,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',12,'m8','redo',9,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',13,'m9','act',10,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',14,'m10','fresh',11,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',15,'m11','setup',12,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',16,'m12','act',13,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',17,'m13','act',14,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',18,'m14','act',15,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('OAmYBkQTXGwG',19,'m15','undo',14,'j7RMHMaPG9bX',1795610366);
INSERT INTO "change" VALUES('t16acY4KWBnh',1,'m16','setup',17,'NPDME1Mmh5fF',1795610366);
INSERT INTO "change" VALUES('t16acY4KWBnh',2,'m17','act',21,'NPDME1Mmh5fF',1795610366);
INSERT INTO "change" VALUES('t16acY4KWBnh',3,'m18','act',22,'NPDME1Mmh5fF',1795610366);
INSERT INTO "change" VALUES('t16acY4KWBnh',4,'m19','act',23,'NPDME1Mmh5fF',1795610366);
CREATE TABLE design (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	deleted INTEGER, 
	CONSTRAINT pk_design PRIMARY KEY (id), 
	CONSTRAINT ck_design_kind CHECK (kind IN ('rules', 'formation')), 
	CONSTRAINT fk_design_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "design" VALUES('pSKc-RTQLF7D','HN2ToMNSy7J0','rules',1795610366,NULL);
CREATE TABLE design_version (
	design_id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	data VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_design_version PRIMARY KEY (design_id, version), 
	CONSTRAINT fk_design_version_design_id_design FOREIGN KEY(design_id) REFERENCES design (id)
);
INSERT INTO "design_version" VALUES('pSKc-RTQLF7D',1,'{"version": 1, "name": "pass_and_cut", "title": "Ours", "about": "The passer cuts, the others close up toward the ball, everybody rotates with a middle drive.", "posts": null, "actions": ["pass", "skip", "post_entry", "dribble_at", "hand_off", "dribble_to", "back_cut", "drive", "ball_screen", "kick_out", "high_low", "dump_off", "dribble_out", "cutter_pass", "shot"], "lane": ["fill", "post_up", "back_screen"], "stages": [{"title": "Pass and cut", "adds": ["pass", "skip", "fill"]}, {"title": "Dribble at and hand off", "adds": ["dribble_at", "hand_off", "dribble_to", "back_cut"]}, {"title": "Drive and kick", "adds": ["drive", "kick_out", "dribble_out", "dump_off"]}, {"title": "Feed the post", "adds": ["post_up", "post_entry", "high_low", "cutter_pass"]}, {"title": "Screens", "adds": ["back_screen", "ball_screen"]}], "known": [{"finding": "never:post_up", "formation": "three_out_two_in", "why": "Both posts are taken already: it is there for the other formations."}], "responses": {"pass": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "skip": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "post_entry": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "dribble_at": {"dribbled_at": "back_cut", "perimeter": "fill", "posts": "stay"}, "hand_off": {"passer": "cut", "perimeter": "fill", "posts": "stay"}, "dribble_to": {"perimeter": "fill", "posts": "stay"}, "denied": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "middle_drive": {"perimeter": "rotate", "ball_side_posts": ["to_short_corner", "stay"], "middle_posts": ["to_far_elbow", "stay"], "weak_side_posts": "stay"}, "baseline_drive": {"behind": "cover", "ahead": "stay", "ball_side_posts": ["to_elbow", "stay"], "posts": "stay"}, "ball_screen": {"screener": "roll"}, "kick_out": {"passer": "stay", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "high_low": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dump_off": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dribble_out": {"perimeter": "fill", "posts": "stay"}, "hub_hand_off": {"passer": "stay", "perimeter": "fill", "posts": "stay"}, "hub_back_cut": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "face_up": {"perimeter": "stay", "ball_side_posts": ["to_short_corner", "stay"], "posts": "stay"}, "shot": {"deepest_two": "get_back", "others": "rebound"}}}',1795610366);
CREATE TABLE done (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_done PRIMARY KEY (id, team_id), 
	CONSTRAINT fk_done_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "done" VALUES('o1','HN2ToMNSy7J0',1795610366);
CREATE TABLE join_code (
	id VARCHAR NOT NULL, 
	board_id VARCHAR NOT NULL, 
	code_hash VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	expires INTEGER NOT NULL, 
	uses INTEGER NOT NULL, 
	CONSTRAINT pk_join_code PRIMARY KEY (id), 
	CONSTRAINT fk_join_code_board_id_board FOREIGN KEY(board_id) REFERENCES board (id)
);
INSERT INTO "join_code" VALUES('RGnx-qd2f-vc','OAmYBkQTXGwG','f2f4b705af84bb735fc21273706a8cfe7ac04272aea1e1863c5a0f8ebe646b5d',1795610366,1795610966,0);
CREATE TABLE "key" (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	board_id VARCHAR, 
	link_id VARCHAR, 
	role VARCHAR NOT NULL, 
	secret_hash VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	seen INTEGER NOT NULL, 
	revoked INTEGER, 
	CONSTRAINT pk_key PRIMARY KEY (id), 
	CONSTRAINT ck_key_role CHECK (role IN ('head_coach', 'assistant', 'viewer')), 
	CONSTRAINT fk_key_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_key_link_id_link FOREIGN KEY(link_id) REFERENCES link (id), 
	CONSTRAINT fk_key_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "key" VALUES('j7RMHMaPG9bX','jE15Me7FoiVK',NULL,'CQ5TRkQHP-Xi','head_coach','b9f32103abaa7809adde74b436ac16493b70009bf7b33d2a1443cc8a4c0bdacc','a device',1795610365,1795610365,NULL);
INSERT INTO "key" VALUES('NPDME1Mmh5fF','HN2ToMNSy7J0',NULL,NULL,'head_coach','6f7f2cc4f243b07f33411e9ef2ef47121357c0c8b2345b6c0529c9eb55119bfc','a device',1795610366,1795610366,NULL);
CREATE TABLE lineup (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	places VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	deleted INTEGER, 
	CONSTRAINT pk_lineup PRIMARY KEY (id), 
	CONSTRAINT fk_lineup_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
CREATE TABLE link (
	id VARCHAR NOT NULL, 
	board_id VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	role VARCHAR NOT NULL, 
	token_hash VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	code_id VARCHAR, 
	automatic BOOLEAN NOT NULL, 
	uses INTEGER NOT NULL, 
	made INTEGER NOT NULL, 
	revoked INTEGER, 
	CONSTRAINT pk_link PRIMARY KEY (id), 
	CONSTRAINT ck_link_kind CHECK (kind IN ('view', 'coach')), 
	CONSTRAINT ck_link_role CHECK (role IN ('head_coach', 'assistant', 'viewer')), 
	CONSTRAINT fk_link_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_link_code_id_join_code FOREIGN KEY(code_id) REFERENCES join_code (id), 
	CONSTRAINT uq_link_token_hash UNIQUE (token_hash)
);
INSERT INTO "link" VALUES('CQ5TRkQHP-Xi','OAmYBkQTXGwG','coach','head_coach','c311635a8523472851c3a48b146daa5d2eab68ec53fa975b59f5dda9504a4071','this machine',NULL,1,1,1795610365,NULL);
INSERT INTO "link" VALUES('YX9pVpiiROfs','OAmYBkQTXGwG','view','viewer','b72951901b8cc61e0a3c1217c0cd5eaa10bed160b0a40e4f90748ef6f5afb08e','players',NULL,0,0,1795610366,NULL);
INSERT INTO "link" VALUES('KULLP_5_EmIr','OAmYBkQTXGwG','view','viewer','bac67b6ef5f97ef2fcbbfc03227778f43209b78303082002e07435d11dfbb162','turned off',NULL,0,0,1795610366,1795610366);
INSERT INTO "link" VALUES('3XLdRCc0Dpro','t16acY4KWBnh','coach','assistant','6671660b95f2b9dc289bca47ed1d16c441b7c3c9e21b5bffa5ad6236088aa99b','assistant',NULL,0,0,1795610366,NULL);
CREATE TABLE node (
	id INTEGER NOT NULL, 
	board_id VARCHAR NOT NULL, 
	parent_id INTEGER, 
	depth INTEGER NOT NULL, 
	actions VARCHAR NOT NULL, 
	formation VARCHAR, 
	made INTEGER NOT NULL, rules VARCHAR, 
	CONSTRAINT pk_node PRIMARY KEY (id), 
	CONSTRAINT fk_node_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_node_parent_id_node FOREIGN KEY(parent_id) REFERENCES node (id)
);
INSERT INTO "node" VALUES(1,'OAmYBkQTXGwG',NULL,0,'','five_out',1795610365,'pass_and_cut');
INSERT INTO "node" VALUES(2,'OAmYBkQTXGwG',1,1,'pass:right_wing',NULL,1795610365,NULL);
INSERT INTO "node" VALUES(3,'OAmYBkQTXGwG',2,2,'fill:left_corner pass:top',NULL,1795610365,NULL);
INSERT INTO "node" VALUES(4,'OAmYBkQTXGwG',3,3,'fill:right_corner drive:left',NULL,1795610365,NULL);
INSERT INTO "node" VALUES(5,'OAmYBkQTXGwG',4,4,'kick_out:left_corner',NULL,1795610365,NULL);
INSERT INTO "node" VALUES(6,'OAmYBkQTXGwG',NULL,0,'','four_out_one_in',1795610365,'pass_and_cut');
INSERT INTO "node" VALUES(7,'OAmYBkQTXGwG',6,1,'skip:left_wing',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(8,'OAmYBkQTXGwG',7,2,'fill:left_corner',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(9,'OAmYBkQTXGwG',8,3,'pass:left_corner',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(10,'OAmYBkQTXGwG',9,4,'fill:right_slot',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(11,'OAmYBkQTXGwG',NULL,0,'','four_out_one_in',1795610366,'pass_and_cut');
INSERT INTO "node" VALUES(12,'OAmYBkQTXGwG',NULL,0,'','five_out',1795610366,'pass_and_cut');
INSERT INTO "node" VALUES(13,'OAmYBkQTXGwG',12,1,'pass:right_wing',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(14,'OAmYBkQTXGwG',13,2,'fill:left_corner drive:left',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(15,'OAmYBkQTXGwG',14,3,'kick_out:left_corner',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(16,'t16acY4KWBnh',NULL,0,'','five_out',1795610366,'pass_and_cut');
INSERT INTO "node" VALUES(17,'t16acY4KWBnh',NULL,0,'','five_out',1795610366,'r_pSKc-RTQLF7D@1');
INSERT INTO "node" VALUES(18,'t16acY4KWBnh',NULL,0,'','five_out',1795610366,'pass_and_cut');
INSERT INTO "node" VALUES(19,'t16acY4KWBnh',18,1,'pass:right_wing',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(20,'t16acY4KWBnh',19,2,'fill:left_corner',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(21,'t16acY4KWBnh',17,1,'pass:left_wing',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(22,'t16acY4KWBnh',21,2,'fill:right_corner',NULL,1795610366,NULL);
INSERT INTO "node" VALUES(23,'t16acY4KWBnh',21,2,'post_up:right_block',NULL,1795610366,NULL);
CREATE TABLE place (
	board_id VARCHAR NOT NULL, 
	seq INTEGER NOT NULL, 
	root_id INTEGER NOT NULL, 
	cursor_id INTEGER NOT NULL, 
	tip_id INTEGER NOT NULL, 
	CONSTRAINT pk_place PRIMARY KEY (board_id), 
	CONSTRAINT fk_place_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_place_cursor_id_node FOREIGN KEY(cursor_id) REFERENCES node (id), 
	CONSTRAINT fk_place_root_id_node FOREIGN KEY(root_id) REFERENCES node (id), 
	CONSTRAINT fk_place_tip_id_node FOREIGN KEY(tip_id) REFERENCES node (id)
);
INSERT INTO "place" VALUES('OAmYBkQTXGwG',19,12,14,15);
INSERT INTO "place" VALUES('t16acY4KWBnh',4,17,23,23);
CREATE TABLE player (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	number VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	positions VARCHAR NOT NULL, 
	hand VARCHAR NOT NULL, 
	may VARCHAR, 
	lane VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	deleted INTEGER, 
	CONSTRAINT pk_player PRIMARY KEY (id), 
	CONSTRAINT fk_player_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "player" VALUES('d1OGJ2dTWyIA','HN2ToMNSy7J0','7','Robin','[]','',NULL,'[]',1795610366,NULL);
CREATE TABLE server_lock (
	id INTEGER NOT NULL, 
	generation INTEGER NOT NULL, 
	CONSTRAINT pk_server_lock PRIMARY KEY (id), 
	CONSTRAINT ck_server_lock_one_row CHECK (id = 1)
);
INSERT INTO "server_lock" VALUES(1,2);
CREATE TABLE team (
	id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	made INTEGER NOT NULL, calls VARCHAR DEFAULT '{}' NOT NULL, 
	CONSTRAINT pk_team PRIMARY KEY (id)
);
INSERT INTO "team" VALUES('jE15Me7FoiVK','Harbour Herons',1795610365,'{}');
INSERT INTO "team" VALUES('HN2ToMNSy7J0','Harbour Herons',1795610366,'{}');
CREATE INDEX ix_board_team_id ON board (team_id);
CREATE INDEX ix_join_code_board_id ON join_code (board_id);
CREATE INDEX ix_join_code_code_hash ON join_code (code_hash);
CREATE INDEX ix_node_board_id ON node (board_id);
CREATE INDEX ix_node_parent_id ON node (parent_id);
CREATE INDEX ix_link_board_id ON link (board_id);
CREATE INDEX ix_key_link_id ON "key" (link_id);
CREATE INDEX ix_key_team_id ON "key" (team_id);
CREATE INDEX ix_change_node_id ON change (node_id);
CREATE INDEX ix_player_team_id ON player (team_id);
CREATE INDEX ix_lineup_team_id ON lineup (team_id);
CREATE INDEX ix_design_team_id ON design (team_id);
CREATE INDEX ix_chain_team_id ON chain (team_id);
COMMIT;
