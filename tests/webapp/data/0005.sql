BEGIN TRANSACTION;
CREATE TABLE admission (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	role VARCHAR NOT NULL, 
	board_id VARCHAR, 
	secret_hash VARCHAR NOT NULL, 
	by_id VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	expires INTEGER, 
	used INTEGER, 
	key_id VARCHAR, 
	revoked INTEGER, 
	CONSTRAINT pk_admission PRIMARY KEY (id), 
	CONSTRAINT ck_admission_kind CHECK (kind IN ('code', 'sheet')), 
	CONSTRAINT ck_admission_role CHECK (role IN ('head_coach', 'assistant')), 
	CONSTRAINT fk_admission_team_id_team FOREIGN KEY(team_id) REFERENCES team (id), 
	CONSTRAINT fk_admission_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_admission_by_id_key FOREIGN KEY(by_id) REFERENCES "key" (id), 
	CONSTRAINT fk_admission_key_id_key FOREIGN KEY(key_id) REFERENCES "key" (id), 
	CONSTRAINT uq_admission_secret_hash UNIQUE (secret_hash)
);
INSERT INTO "admission" VALUES('6eNwlAHpfpj6','Xr2oE9SNjuv0','code','assistant','B4UjFhZ5yP1o','1538abae90cb65a1ac1b7e842f74bab5c96057a0c96f6af52df2cfebd7ad9ceb','of_zXxIw6FIk',1795614879,1795615479,NULL,NULL,NULL);
INSERT INTO "admission" VALUES('nmvKcCWLH_Z8','Xr2oE9SNjuv0','sheet','head_coach',NULL,'416aa70560b3cf263eaf40a08e9aa202e814fb28eedd7e08e99ce519a1dec515','of_zXxIw6FIk',1795614879,NULL,NULL,NULL,NULL);
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0005');
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
INSERT INTO "board" VALUES('8AOjLmojTV21','adRyUZx1CYLt','Tuesday practice','five_out','nba',0.9,1795614872,'pass_and_cut',NULL,'{}');
INSERT INTO "board" VALUES('B4UjFhZ5yP1o','Xr2oE9SNjuv0','Tuesday','five_out','fiba',1.0,1795614879,'r_teG6ssK-itek@1',NULL,'{"1": "STLXfpnC-hHh"}');
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
INSERT INTO "chain" VALUES('hl2w4DHCgMnw','adRyUZx1CYLt','8AOjLmojTV21',1,5,'','','[]',0,0,1795614872,1795614872,NULL);
INSERT INTO "chain" VALUES('95cssXZIwtld','adRyUZx1CYLt','8AOjLmojTV21',6,10,'','','[]',0,0,1795614876,1795614878,NULL);
INSERT INTO "chain" VALUES('v2eq4E0tFVYH','adRyUZx1CYLt','8AOjLmojTV21',11,11,'','','[]',0,0,1795614878,1795614878,NULL);
INSERT INTO "chain" VALUES('W23G7HYIIr1G','adRyUZx1CYLt','8AOjLmojTV21',12,15,'','','[]',0,0,1795614878,1795614878,NULL);
INSERT INTO "chain" VALUES('ArxUgo3a3iZo','Xr2oE9SNjuv0','B4UjFhZ5yP1o',16,16,'','','[]',0,0,1795614879,1795614879,NULL);
INSERT INTO "chain" VALUES('xtVkwxyb8TnH','Xr2oE9SNjuv0','B4UjFhZ5yP1o',17,23,'','','[]',0,0,1795614879,1795614879,NULL);
INSERT INTO "chain" VALUES('c1','Xr2oE9SNjuv0','B4UjFhZ5yP1o',18,20,'Quick','','[]',0,1,1795614879,1795614879,NULL);
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
INSERT INTO "change" VALUES('8AOjLmojTV21',1,'demo-1','act',2,NULL,1795614872);
INSERT INTO "change" VALUES('8AOjLmojTV21',2,'demo-2','act',3,NULL,1795614872);
INSERT INTO "change" VALUES('8AOjLmojTV21',3,'demo-3','act',4,NULL,1795614872);
INSERT INTO "change" VALUES('8AOjLmojTV21',4,'demo-4','act',5,NULL,1795614872);
INSERT INTO "change" VALUES('8AOjLmojTV21',5,'m1','setup',6,'Sp-Rdschbrlc',1795614876);
INSERT INTO "change" VALUES('8AOjLmojTV21',6,'m2','act',7,'Sp-Rdschbrlc',1795614877);
INSERT INTO "change" VALUES('8AOjLmojTV21',7,'m3','act',8,'Sp-Rdschbrlc',1795614877);
INSERT INTO "change" VALUES('8AOjLmojTV21',8,'m4','act',9,'Sp-Rdschbrlc',1795614877);
INSERT INTO "change" VALUES('8AOjLmojTV21',9,'m5','act',10,'Sp-Rdschbrlc',1795614877);
INSERT INTO "change" VALUES('8AOjLmojTV21',10,'m6','undo',9,'Sp-Rdschbrlc',1795614877);
INSERT INTO "change" VALUES('8AOjLmojTV21',11,'m7','undo',8,'Sp-Rdschbrlc',1795614877);
INSERT INTO "change" VALUES('8AOjLmojTV21',12,'m8','redo',9,'Sp-Rdschbrlc',1795614878);
INSERT INTO "change" VALUES('8AOjLmojTV21',13,'m9','act',10,'Sp-Rdschbrlc',1795614878);
INSERT INTO "change" VALUES('8AOjLmojTV21',14,'m10','fresh',11,'Sp-Rdschbrlc',1795614878);
INSERT INTO "change" VALUES('8AOjLmojTV21',15,'m11','setup',12,'Sp-Rdschbrlc',1795614878);
INSERT INTO "change" VALUES('8AOjLmojTV21',16,'m12','act',13,'Sp-Rdschbrlc',1795614878);
INSERT INTO "change" VALUES('8AOjLmojTV21',17,'m13','act',14,'Sp-Rdschbrlc',1795614878);
INSERT INTO "change" VALUES('8AOjLmojTV21',18,'m14','act',15,'Sp-Rdschbrlc',1795614878);
INSERT INTO "change" VALUES('8AOjLmojTV21',19,'m15','undo',14,'Sp-Rdschbrlc',1795614878);
INSERT INTO "change" VALUES('B4UjFhZ5yP1o',1,'m16','setup',17,'of_zXxIw6FIk',1795614879);
INSERT INTO "change" VALUES('B4UjFhZ5yP1o',2,'m17','act',21,'of_zXxIw6FIk',1795614879);
INSERT INTO "change" VALUES('B4UjFhZ5yP1o',3,'m18','act',22,'of_zXxIw6FIk',1795614879);
INSERT INTO "change" VALUES('B4UjFhZ5yP1o',4,'m19','act',23,'of_zXxIw6FIk',1795614879);
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
INSERT INTO "design" VALUES('teG6ssK-itek','Xr2oE9SNjuv0','rules',1795614879,NULL);
CREATE TABLE design_version (
	design_id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	data VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_design_version PRIMARY KEY (design_id, version), 
	CONSTRAINT fk_design_version_design_id_design FOREIGN KEY(design_id) REFERENCES design (id)
);
INSERT INTO "design_version" VALUES('teG6ssK-itek',1,'{"version": 1, "name": "pass_and_cut", "title": "Ours", "about": "The passer cuts, the others close up toward the ball, everybody rotates with a middle drive.", "posts": null, "actions": ["pass", "skip", "post_entry", "dribble_at", "hand_off", "dribble_to", "back_cut", "drive", "ball_screen", "kick_out", "high_low", "dump_off", "dribble_out", "cutter_pass", "shot"], "lane": ["fill", "post_up", "back_screen"], "stages": [{"title": "Pass and cut", "adds": ["pass", "skip", "fill"]}, {"title": "Dribble at and hand off", "adds": ["dribble_at", "hand_off", "dribble_to", "back_cut"]}, {"title": "Drive and kick", "adds": ["drive", "kick_out", "dribble_out", "dump_off"]}, {"title": "Feed the post", "adds": ["post_up", "post_entry", "high_low", "cutter_pass"]}, {"title": "Screens", "adds": ["back_screen", "ball_screen"]}], "known": [{"finding": "never:post_up", "formation": "three_out_two_in", "why": "Both posts are taken already: it is there for the other formations."}], "responses": {"pass": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "skip": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "post_entry": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "dribble_at": {"dribbled_at": "back_cut", "perimeter": "fill", "posts": "stay"}, "hand_off": {"passer": "cut", "perimeter": "fill", "posts": "stay"}, "dribble_to": {"perimeter": "fill", "posts": "stay"}, "denied": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "middle_drive": {"perimeter": "rotate", "ball_side_posts": ["to_short_corner", "stay"], "middle_posts": ["to_far_elbow", "stay"], "weak_side_posts": "stay"}, "baseline_drive": {"behind": "cover", "ahead": "stay", "ball_side_posts": ["to_elbow", "stay"], "posts": "stay"}, "ball_screen": {"screener": "roll"}, "kick_out": {"passer": "stay", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "high_low": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dump_off": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dribble_out": {"perimeter": "fill", "posts": "stay"}, "hub_hand_off": {"passer": "stay", "perimeter": "fill", "posts": "stay"}, "hub_back_cut": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "face_up": {"perimeter": "stay", "ball_side_posts": ["to_short_corner", "stay"], "posts": "stay"}, "shot": {"deepest_two": "get_back", "others": "rebound"}}}',1795614879);
CREATE TABLE done (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_done PRIMARY KEY (id, team_id), 
	CONSTRAINT fk_done_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "done" VALUES('o1','Xr2oE9SNjuv0',1795614879);
CREATE TABLE ink (
	node_id INTEGER NOT NULL, 
	id VARCHAR NOT NULL, 
	chain_id VARCHAR NOT NULL, 
	tool INTEGER NOT NULL, 
	colour INTEGER NOT NULL, 
	points VARCHAR NOT NULL, 
	gone BOOLEAN NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_ink PRIMARY KEY (node_id, id), 
	CONSTRAINT fk_ink_chain_id_chain FOREIGN KEY(chain_id) REFERENCES chain (id), 
	CONSTRAINT fk_ink_node_id_node FOREIGN KEY(node_id) REFERENCES node (id)
);
INSERT INTO "ink" VALUES(17,'s1','xtVkwxyb8TnH',2,1,'[0,300,50,120,40,0]',0,1795614879);
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
INSERT INTO "join_code" VALUES('Sns8bdYlnem7','8AOjLmojTV21','d067eb79a78661236ed834512149971c443e861500dcfda07e210d206185d17d',1795614878,1795615478,0);
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
INSERT INTO "key" VALUES('Sp-Rdschbrlc','adRyUZx1CYLt',NULL,'I0YFIAZ7C2bc','head_coach','4afe39afd433e6d155c24a374a616162bf9ffc6a093e82111feb82e284cebb2d','a device',1795614875,1795614875,NULL);
INSERT INTO "key" VALUES('of_zXxIw6FIk','Xr2oE9SNjuv0',NULL,NULL,'head_coach','8e3b5d33cbfbe6e9bc3efced22d45212f799d3568ffe58bde4d29b16ff5d2088','a device',1795614879,1795614879,NULL);
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
INSERT INTO "link" VALUES('I0YFIAZ7C2bc','8AOjLmojTV21','coach','head_coach','ed44028e755fa0eb089d14574c0917e2b57d3146b9f49051457301146dec7686','this machine',NULL,1,1,1795614872,NULL);
INSERT INTO "link" VALUES('7XlHMVuhZ9y3','8AOjLmojTV21','view','viewer','56b2d983c43000cf8da925e0227135fdba50ef982ecdcdafdf5701a4ad7712aa','players',NULL,0,0,1795614878,NULL);
INSERT INTO "link" VALUES('oYFE1IfQwZZg','8AOjLmojTV21','view','viewer','4900b61bcf0a803ce21a99f3eaa0793bf60c446a853e9c18a2feb685a912080e','turned off',NULL,0,0,1795614878,1795614878);
INSERT INTO "link" VALUES('Him85Cgf6bFq','B4UjFhZ5yP1o','coach','assistant','51ea57b4da85406f2880a072989e12aa1ebcc3f8d9d744bd3b66a15519bf6b9a','assistant',NULL,0,0,1795614879,NULL);
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
INSERT INTO "node" VALUES(1,'8AOjLmojTV21',NULL,0,'','five_out',1795614872,'pass_and_cut');
INSERT INTO "node" VALUES(2,'8AOjLmojTV21',1,1,'pass:right_wing',NULL,1795614872,NULL);
INSERT INTO "node" VALUES(3,'8AOjLmojTV21',2,2,'fill:left_corner pass:top',NULL,1795614872,NULL);
INSERT INTO "node" VALUES(4,'8AOjLmojTV21',3,3,'fill:right_corner drive:left',NULL,1795614872,NULL);
INSERT INTO "node" VALUES(5,'8AOjLmojTV21',4,4,'kick_out:left_corner',NULL,1795614872,NULL);
INSERT INTO "node" VALUES(6,'8AOjLmojTV21',NULL,0,'','four_out_one_in',1795614876,'pass_and_cut');
INSERT INTO "node" VALUES(7,'8AOjLmojTV21',6,1,'skip:left_wing',NULL,1795614877,NULL);
INSERT INTO "node" VALUES(8,'8AOjLmojTV21',7,2,'fill:left_corner',NULL,1795614877,NULL);
INSERT INTO "node" VALUES(9,'8AOjLmojTV21',8,3,'pass:left_corner',NULL,1795614877,NULL);
INSERT INTO "node" VALUES(10,'8AOjLmojTV21',9,4,'fill:right_slot',NULL,1795614877,NULL);
INSERT INTO "node" VALUES(11,'8AOjLmojTV21',NULL,0,'','four_out_one_in',1795614878,'pass_and_cut');
INSERT INTO "node" VALUES(12,'8AOjLmojTV21',NULL,0,'','five_out',1795614878,'pass_and_cut');
INSERT INTO "node" VALUES(13,'8AOjLmojTV21',12,1,'pass:right_wing',NULL,1795614878,NULL);
INSERT INTO "node" VALUES(14,'8AOjLmojTV21',13,2,'fill:left_corner drive:left',NULL,1795614878,NULL);
INSERT INTO "node" VALUES(15,'8AOjLmojTV21',14,3,'kick_out:left_corner',NULL,1795614878,NULL);
INSERT INTO "node" VALUES(16,'B4UjFhZ5yP1o',NULL,0,'','five_out',1795614879,'pass_and_cut');
INSERT INTO "node" VALUES(17,'B4UjFhZ5yP1o',NULL,0,'','five_out',1795614879,'r_teG6ssK-itek@1');
INSERT INTO "node" VALUES(18,'B4UjFhZ5yP1o',NULL,0,'','five_out',1795614879,'pass_and_cut');
INSERT INTO "node" VALUES(19,'B4UjFhZ5yP1o',18,1,'pass:right_wing',NULL,1795614879,NULL);
INSERT INTO "node" VALUES(20,'B4UjFhZ5yP1o',19,2,'fill:left_corner',NULL,1795614879,NULL);
INSERT INTO "node" VALUES(21,'B4UjFhZ5yP1o',17,1,'pass:left_wing',NULL,1795614879,NULL);
INSERT INTO "node" VALUES(22,'B4UjFhZ5yP1o',21,2,'fill:right_corner',NULL,1795614879,NULL);
INSERT INTO "node" VALUES(23,'B4UjFhZ5yP1o',21,2,'post_up:right_block',NULL,1795614879,NULL);
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
INSERT INTO "place" VALUES('8AOjLmojTV21',19,12,14,15);
INSERT INTO "place" VALUES('B4UjFhZ5yP1o',4,17,23,23);
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
INSERT INTO "player" VALUES('STLXfpnC-hHh','Xr2oE9SNjuv0','7','Robin','[]','',NULL,'[]',1795614879,NULL);
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
INSERT INTO "team" VALUES('adRyUZx1CYLt','Harbour Herons',1795614872,'{}');
INSERT INTO "team" VALUES('Xr2oE9SNjuv0','Harbour Herons',1795614879,'{}');
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
CREATE INDEX ix_admission_team_id ON admission (team_id);
CREATE INDEX ix_ink_chain_id ON ink (chain_id);
COMMIT;
