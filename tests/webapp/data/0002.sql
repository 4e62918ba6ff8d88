BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0002');
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
INSERT INTO "board" VALUES('tGIcAIhY1yhI','rIN6svea68yU','Tuesday practice','five_out','nba',0.9,1795610320,'pass_and_cut',NULL,'{}');
INSERT INTO "board" VALUES('AN8u25F-ZwJV','sSlXFCH6U5rs','Tuesday','five_out','fiba',1.0,1795610322,'r_VUBrl7CLSlRH@1',NULL,'{"1": "GBGkVDIkS4fq"}');
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
INSERT INTO "change" VALUES('tGIcAIhY1yhI',1,'demo-1','act',2,NULL,1795610320);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',2,'demo-2','act',3,NULL,1795610320);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',3,'demo-3','act',4,NULL,1795610320);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',4,'demo-4','act',5,NULL,1795610320);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',5,'m1','setup',6,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',6,'m2','act',7,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',7,'m3','act',8,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',8,'m4','act',9,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',9,'m5','act',10,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',10,'m6','undo',9,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',11,'m7','undo',8,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',12,'m8','redo',9,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',13,'m9','act',10,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',14,'m10','fresh',11,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',15,'m11','setup',12,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',16,'m12','act',13,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',17,'m13','act',14,'qmzx-ozMZrD9',1795610321);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',18,'m14','act',15,'qmzx-ozMZrD9',1795610322);
INSERT INTO "change" VALUES('tGIcAIhY1yhI',19,'m15','undo',14,'qmzx-ozMZrD9',1795610322);
INSERT INTO "change" VALUES('AN8u25F-ZwJV',1,'m16','setup',17,'dahif5-HUfkH',1795610322);
INSERT INTO "change" VALUES('AN8u25F-ZwJV',2,'m17','act',18,'dahif5-HUfkH',1795610322);
INSERT INTO "change" VALUES('AN8u25F-ZwJV',3,'m18','act',19,'dahif5-HUfkH',1795610322);
INSERT INTO "change" VALUES('AN8u25F-ZwJV',4,'m19','act',20,'dahif5-HUfkH',1795610322);
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
INSERT INTO "design" VALUES('VUBrl7CLSlRH','sSlXFCH6U5rs','rules',1795610322,NULL);
CREATE TABLE design_version (
	design_id VARCHAR NOT NULL, 
	version INTEGER NOT NULL, 
	data VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_design_version PRIMARY KEY (design_id, version), 
	CONSTRAINT fk_design_version_design_id_design FOREIGN KEY(design_id) REFERENCES design (id)
);
INSERT INTO "design_version" VALUES('VUBrl7CLSlRH',1,'{"version": 1, "name": "pass_and_cut", "title": "Ours", "about": "The passer cuts, the others close up toward the ball, everybody rotates with a middle drive.", "posts": null, "actions": ["pass", "skip", "post_entry", "dribble_at", "hand_off", "dribble_to", "back_cut", "drive", "ball_screen", "kick_out", "high_low", "dump_off", "dribble_out", "cutter_pass", "shot"], "lane": ["fill", "post_up", "back_screen"], "stages": [{"title": "Pass and cut", "adds": ["pass", "skip", "fill"]}, {"title": "Dribble at and hand off", "adds": ["dribble_at", "hand_off", "dribble_to", "back_cut"]}, {"title": "Drive and kick", "adds": ["drive", "kick_out", "dribble_out", "dump_off"]}, {"title": "Feed the post", "adds": ["post_up", "post_entry", "high_low", "cutter_pass"]}, {"title": "Screens", "adds": ["back_screen", "ball_screen"]}], "known": [{"finding": "never:post_up", "formation": "three_out_two_in", "why": "Both posts are taken already: it is there for the other formations."}], "responses": {"pass": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "skip": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "post_entry": {"passer": "cut", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "dribble_at": {"dribbled_at": "back_cut", "perimeter": "fill", "posts": "stay"}, "hand_off": {"passer": "cut", "perimeter": "fill", "posts": "stay"}, "dribble_to": {"perimeter": "fill", "posts": "stay"}, "denied": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "middle_drive": {"perimeter": "rotate", "ball_side_posts": ["to_short_corner", "stay"], "middle_posts": ["to_far_elbow", "stay"], "weak_side_posts": "stay"}, "baseline_drive": {"behind": "cover", "ahead": "stay", "ball_side_posts": ["to_elbow", "stay"], "posts": "stay"}, "ball_screen": {"screener": "roll"}, "kick_out": {"passer": "stay", "receiver": "stay", "perimeter": "fill", "posts": "stay"}, "high_low": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dump_off": {"passer": "stay", "receiver": "stay", "perimeter": "stay", "posts": "stay"}, "dribble_out": {"perimeter": "fill", "posts": "stay"}, "hub_hand_off": {"passer": "stay", "perimeter": "fill", "posts": "stay"}, "hub_back_cut": {"denied": "back_cut", "perimeter": "fill", "posts": "stay"}, "face_up": {"perimeter": "stay", "ball_side_posts": ["to_short_corner", "stay"], "posts": "stay"}, "shot": {"deepest_two": "get_back", "others": "rebound"}}}',1795610322);
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
INSERT INTO "join_code" VALUES('heVIESPKMmNG','tGIcAIhY1yhI','8b033f29d8cf2e97ad7ddf1b0021eb3e070d0610d626ce56dcca743b26595436',1795610322,1795610922,0);
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
INSERT INTO "key" VALUES('qmzx-ozMZrD9','rIN6svea68yU',NULL,'6Cx_MxuuAS7T','head_coach','c21f12f58bdd83b832abf09d9ff8d614d54cd85da8d5859317f5153a91ed43b9','a device',1795610321,1795610321,NULL);
INSERT INTO "key" VALUES('dahif5-HUfkH','sSlXFCH6U5rs',NULL,NULL,'head_coach','6cf50ac309cbd9b1dac9ef73d149946705735bda2d15ca04029fba86e139ae90','a device',1795610322,1795610322,NULL);
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
INSERT INTO "link" VALUES('6Cx_MxuuAS7T','tGIcAIhY1yhI','coach','head_coach','2730d6c647ed3ce258c41855291d0cfccff3aa2a449366dbb7e7c24a8d7454d8','this machine',NULL,1,1,1795610320,NULL);
INSERT INTO "link" VALUES('TG0L42ke1dsu','tGIcAIhY1yhI','view','viewer','af80b8050b2ce957d55abeff7c740ae1207de0dd073e8d54967c9b0fc6a85c71','players',NULL,0,0,1795610322,NULL);
INSERT INTO "link" VALUES('NXfI5fi5n6Iw','tGIcAIhY1yhI','view','viewer','bb5b6af535388fc27d7d50a5cd22ec4476e8a2985f0aac392c53a55efddc9422','turned off',NULL,0,0,1795610322,1795610322);
INSERT INTO "link" VALUES('I31CKIz8PKee','AN8u25F-ZwJV','coach','assistant','2557a36c30af255f82b0dd7b5e1b1f85879f9ca151505ea3f19bc176479cc528','assistant',NULL,0,0,1795610322,NULL);
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
INSERT INTO "node" VALUES(1,'tGIcAIhY1yhI',NULL,0,'','five_out',1795610320,'pass_and_cut');
INSERT INTO "node" VALUES(2,'tGIcAIhY1yhI',1,1,'pass:right_wing',NULL,1795610320,NULL);
INSERT INTO "node" VALUES(3,'tGIcAIhY1yhI',2,2,'fill:left_corner pass:top',NULL,1795610320,NULL);
INSERT INTO "node" VALUES(4,'tGIcAIhY1yhI',3,3,'fill:right_corner drive:left',NULL,1795610320,NULL);
INSERT INTO "node" VALUES(5,'tGIcAIhY1yhI',4,4,'kick_out:left_corner',NULL,1795610320,NULL);
INSERT INTO "node" VALUES(6,'tGIcAIhY1yhI',NULL,0,'','four_out_one_in',1795610321,'pass_and_cut');
INSERT INTO "node" VALUES(7,'tGIcAIhY1yhI',6,1,'skip:left_wing',NULL,1795610321,NULL);
INSERT INTO "node" VALUES(8,'tGIcAIhY1yhI',7,2,'fill:left_corner',NULL,1795610321,NULL);
INSERT INTO "node" VALUES(9,'tGIcAIhY1yhI',8,3,'pass:left_corner',NULL,1795610321,NULL);
INSERT INTO "node" VALUES(10,'tGIcAIhY1yhI',9,4,'fill:right_slot',NULL,1795610321,NULL);
INSERT INTO "node" VALUES(11,'tGIcAIhY1yhI',NULL,0,'','four_out_one_in',1795610321,'pass_and_cut');
INSERT INTO "node" VALUES(12,'tGIcAIhY1yhI',NULL,0,'','five_out',1795610321,'pass_and_cut');
INSERT INTO "node" VALUES(13,'tGIcAIhY1yhI',12,1,'pass:right_wing',NULL,1795610321,NULL);
INSERT INTO "node" VALUES(14,'tGIcAIhY1yhI',13,2,'fill:left_corner drive:left',NULL,1795610321,NULL);
INSERT INTO "node" VALUES(15,'tGIcAIhY1yhI',14,3,'kick_out:left_corner',NULL,1795610322,NULL);
INSERT INTO "node" VALUES(16,'AN8u25F-ZwJV',NULL,0,'','five_out',1795610322,'pass_and_cut');
INSERT INTO "node" VALUES(17,'AN8u25F-ZwJV',NULL,0,'','five_out',1795610322,'r_VUBrl7CLSlRH@1');
INSERT INTO "node" VALUES(18,'AN8u25F-ZwJV',17,1,'pass:left_wing',NULL,1795610322,NULL);
INSERT INTO "node" VALUES(19,'AN8u25F-ZwJV',18,2,'fill:right_corner',NULL,1795610322,NULL);
INSERT INTO "node" VALUES(20,'AN8u25F-ZwJV',18,2,'post_up:right_block',NULL,1795610322,NULL);
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
INSERT INTO "place" VALUES('tGIcAIhY1yhI',19,12,14,15);
INSERT INTO "place" VALUES('AN8u25F-ZwJV',4,17,20,20);
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
INSERT INTO "player" VALUES('GBGkVDIkS4fq','sSlXFCH6U5rs','7','Robin','[]','',NULL,'[]',1795610322,NULL);
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
INSERT INTO "team" VALUES('rIN6svea68yU','Harbour Herons',1795610320,'{}');
INSERT INTO "team" VALUES('sSlXFCH6U5rs','Harbour Herons',1795610322,'{}');
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
COMMIT;
