(section) @class.around

(entry) @entry.around

(phrase) @parameter.inside

(comment) @comment.inside

(comment)+ @comment.around
